# Rain barrel gauge: a first program for digit_board.py. Lamp test, then a text; or the walk test.
from time import sleep

from digit_board import WIRING, on_pins

WALK_TEST = False  # True: light output 1, 2, 3 ... for two seconds each; write down what each one lights

board = on_pins()
board.all_lit()
sleep(2)
while WALK_TEST:
    board.dark()  # the dark pause comes before output 1
    sleep(4)
    for output in range(1, 8 * len(WIRING) + 1):
        board.walk(output)
        sleep(2)
board.write("72.5")
