# Rain barrel gauge
# 3 digits "88.8" on a chain of 3 registers.
# Made from design 0bdb5b9e3510, segkit 0.1.0.
#
# A module for MicroPython; what a rewired board changes stands first. In main.py:
#     from digit_board import on_pins
#     board = on_pins()
#     board.write("72.5")

# ---- Pins of the controller ------------------------------------------------------------------
PIN_DATA = 19  # to the data input (pin 14) of chip 1
PIN_CLOCK = 18  # to the shift clock (pin 11) of every chip
PIN_LATCH = 17  # to the latch (pin 12) of every chip
PIN_ENABLE = 16  # to the output-enable (pin 13) of every chip, pulled up with 10 kohm
HARDWARE_SERIAL = True  # True: the serial unit 0; False: any pins, slower

# ---- Polarity, order and wiring --------------------------------------------------------------
LIT = 1  # the bit value that lights a segment
LAYOUT = "88.8"  # 8 or o a digit, . a point, : a colon, a blank a gap

# What each output lights: digit (1 = leftmost) and segment. Bits 7 to 0 are the outputs
# QH to QA; the byte that is sent first comes to rest in the farthest chip.
# Segments: a on top, clockwise to f, g in the middle, p the point, q the colon behind the digit.
SPARE = (0, "")
WIRING = (
    (SPARE, (3, "g"), (3, "f"), (3, "e"), (3, "d"), (3, "c"), (3, "b"), (3, "a")),  # chip 3
    ((2, "p"), (2, "g"), (2, "f"), (2, "e"), (2, "d"), (2, "c"), (2, "b"), (2, "a")),  # chip 2
    (SPARE, (1, "g"), (1, "f"), (1, "e"), (1, "d"), (1, "c"), (1, "b"), (1, "a")),  # chip 1
)

# ---- Glyphs ----------------------------------------------------------------------------------
GLYPHS = {
    " ": "",
    #
    #  _
    #
    "-": "g",
    #  _
    # | |
    # |_|
    "0": "abcdef",
    #
    #   |
    #   |
    "1": "bc",
    #  _
    #  _|
    # |_
    "2": "abdeg",
    #  _
    #  _|
    #  _|
    "3": "abcdg",
    #
    # |_|
    #   |
    "4": "bcfg",
    #  _
    # |_
    #  _|
    "5": "acdfg",
    #  _
    # |_
    # |_|
    "6": "acdefg",
    #  _
    #   |
    #   |
    "7": "abc",
    #  _
    # |_|
    # |_|
    "8": "abcdefg",
    #  _
    # |_|
    #  _|
    "9": "abcdfg",
    #  _
    # |_|
    # | |
    "A": "abcefg",
    #
    # |_
    # |_|
    "B": "cdefg",
    #  _
    # |
    # |_
    "C": "adef",
    #
    #  _|
    # |_|
    "D": "bcdeg",
    #  _
    # |_
    # |_
    "E": "adefg",
    #  _
    # |_
    # |
    "F": "aefg",
    #
    #
    #  _
    "_": "d",
}

# ---- Brightness: lit counts of a period at each level; the levels look equally far apart -----
PERIOD = 1024
LIT_COUNTS = (0, 15, 45, 100, 189, 317, 494, 727, 1024)

MARKS = {".": "p", ",": "p", ":": "q"}
MARKS_OF = []  # the point and colon that each digit has
for sign in LAYOUT:
    if sign in "8o":
        MARKS_OF.append("")
    elif sign in MARKS:
        MARKS_OF[-1] += MARKS[sign]
DIGITS = len(MARKS_OF)


def glyph_of(char):
    """The segments of a character; a letter that the table has in one case only stands for both."""
    for known in (char, char.upper(), char.lower()):
        if known in GLYPHS:
            return GLYPHS[known]
    raise ValueError("no glyph for " + repr(char))


def cells_of(text):
    """The segments of each character, points and colons folded into the one before."""
    cells = []
    for char in text:
        if char not in MARKS:
            cells.append(glyph_of(char))
        elif cells:
            cells[-1] += MARKS[char]
        else:
            cells.append(MARKS[char])
    return cells


def fit(text, dark=0):
    """The segments of each digit for a text set flush right, with some digits dark at the right end."""
    end, digits, marks = len(text), [], ""
    for place in range(len(LAYOUT) - 1, -1, -1):
        sign = LAYOUT[place]
        last = text[end - 1] if end else ""
        mark = MARKS.get(last, "")
        if sign in ".: ":
            if last and not dark and (last == " " if sign == " " else mark == MARKS[sign]):
                marks += mark
                end -= 1
            continue
        digits.append(marks)
        marks = ""
        if dark:
            dark -= 1
        elif mark and mark not in [MARKS.get(ahead) for ahead in LAYOUT[:place]]:
            raise ValueError("no place for " + repr(last))
        elif last and not mark:
            digits[-1] += glyph_of(last)
            end -= 1
    rest = text[:end].strip()
    if rest:
        raise ValueError("no place for " + repr(rest) + ": the board has %d digits" % DIGITS)
    digits.reverse()
    return digits


class Board:
    """A chain of registers that lights the digits.

    serial: has write(bytes). latch: call it with 1 and 0. light: call it with lit counts of a period.
    A text that cannot be shown raises ValueError, and the board still shows what it showed.
    """

    def __init__(self, serial, latch, light):
        self.serial, self.latch, self.light = serial, latch, light
        light(0)  # the outputs hold anything at all until the first latch pulse
        self.dark()
        self.level(len(LIT_COUNTS) - 1)

    def show(self, digits):
        """Lights the named segments of each digit, such as ["bc", "abdegp"]."""
        frame = bytearray()
        for row in WIRING:
            byte = 0
            for digit, segments in row:
                on = digit and any(segment in digits[digit - 1] for segment in segments)
                byte = byte << 1 | bool(on)
            frame.append(byte if LIT else byte ^ 0xFF)
        self.send(frame)

    def send(self, frame):
        """Shifts a frame into the chain and latches it."""
        self.serial.write(frame)
        self.latch(1)
        self.latch(0)

    def dark(self):
        """Nothing lit."""
        self.show([""] * DIGITS)

    def all_lit(self):
        """Lamp test: every segment, point and colon."""
        self.show(["abcdefgpq"] * DIGITS)

    def walk(self, output):
        """Walk test: one output alone. 1 is QA of chip 1 (next to the controller), 9 is QA of chip 2."""
        frame = bytearray([0 if LIT else 0xFF] * len(WIRING))
        chip, bit = divmod(output - 1, 8)
        frame[len(WIRING) - 1 - chip] ^= 1 << bit
        self.send(frame)

    def level(self, step):
        """Brightness: 0 is dark, 8 full; the steps between look equal."""
        self.light(LIT_COUNTS[min(step, len(LIT_COUNTS) - 1)])

    def write(self, text):
        """Shows a text flush right; points and colons light those the board has at that place."""
        self.show(fit(text))

    def write_left(self, text):
        """The same as far to the left as it fits."""
        for dark in range(DIGITS - 1, 0, -1):
            try:
                return self.show(fit(text, dark))
            except ValueError:
                pass
        return self.show(fit(text))

    def number(self, value, decimals=0):
        """A whole number, without leading zeros; 725 with one decimal shows as 72.5."""
        text = str(abs(value))
        text = "0" * (decimals + 1 - len(text)) + text
        if decimals:
            text = text[:-decimals] + "." + text[-decimals:]
        self.write("-" + text if value < 0 else text)

    def scroll(self, text, step):
        """A long text that comes in from the right, after so many steps from 0; False once it has gone by."""
        cells = [""] * (DIGITS - 1) + cells_of(text)
        if step >= len(cells):
            self.dark()
            return False
        window = (cells[step:] + [""] * DIGITS)[:DIGITS]
        self.show([
            "".join(segment for segment in cell if segment not in "pq" or segment in own)
            for cell, own in zip(window, MARKS_OF)
        ])
        return True


class PinByPin:
    """Data and clock moved one by one, where the serial unit is not used."""

    def __init__(self, data, clock):
        self.data, self.clock = data, clock

    def write(self, frame):
        for byte in frame:
            for bit in range(7, -1, -1):
                self.data(byte >> bit & 1)
                self.clock(1)
                self.clock(0)


def on_pins():
    """The board on the pins named above, dark from the first moment."""
    from machine import PWM, SPI, Pin

    enable = Pin(PIN_ENABLE, Pin.OUT, value=1)  # high: dark
    pulse = PWM(enable, freq=6000, duty_u16=65535)
    data, clock = Pin(PIN_DATA, Pin.OUT, value=0), Pin(PIN_CLOCK, Pin.OUT, value=0)
    latch = Pin(PIN_LATCH, Pin.OUT, value=0)
    if HARDWARE_SERIAL:
        serial = SPI(0, baudrate=1000000, sck=clock, mosi=data)
    else:
        serial = PinByPin(data, clock)
    return Board(serial, latch, lambda on: pulse.duty_u16(65535 - on * 65535 // PERIOD))
