/*
 * Boules court scoreboard: a first program for board.c. Lamp test, then a text; or the walk test.
 * Made from design a32bfd91f8da, segkit 0.1.0.
 *
 * avr-gcc -std=c99 -Os -Wall -mmcu=atmega328p -DF_CPU=16000000UL -ffunction-sections \
 *         -Wl,--gc-sections -o board.elf main.c board.c
 * avr-objcopy -O ihex -R .eeprom board.elf board.hex
 */
#include "board.h"

#include <util/delay.h>

#ifndef WALK_TEST
#define WALK_TEST 0 /* 1: light output 1, 2, 3 ... for two seconds each; write down what each one lights */
#endif

int main(void)
{
    board_start();
    board_all_lit();
    _delay_ms(2000);
#if WALK_TEST
    for (;;) {
        uint16_t output;

        board_dark(); /* the dark pause comes before output 1 */
        _delay_ms(4000);
        for (output = 1; output <= 32; output++) {
            board_walk(output);
            _delay_ms(2000);
        }
    }
#else
    board_write("13 08");
    for (;;) {
    }
#endif
}
