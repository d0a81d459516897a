/*
 * Frame table: Rain barrel gauge
 * One frame is 3 bytes in the order of sending; a 1 lights.
 * A frame shows one character on one digit alone: put several together with OR, byte by byte.
 * Outputs QA to QH of chip 1 light 1a 1b 1c 1d 1e 1f 1g -.
 * Outputs QA to QH of chip 2 light 2a 2b 2c 2d 2e 2f 2g 2dp.
 * Outputs QA to QH of chip 3 light 3a 3b 3c 3d 3e 3f 3g -.
 */
#ifndef FRAME_TABLE_H
#define FRAME_TABLE_H

#include <stdint.h>

/* 8-bit AVRs keep a table out of their scarce RAM by an attribute; elsewhere const is enough. */
#ifndef TABLE_IN_FLASH
#if defined(__AVR__) && !defined(TABLE_IN_RAM)
#include <avr/pgmspace.h>
#define TABLE_IN_FLASH PROGMEM
#define TABLE_BYTE(at) pgm_read_byte(at)
#define TABLE_WORD(at) pgm_read_word(at)
#else
#define TABLE_IN_FLASH
#define TABLE_BYTE(at) (*(at))
#define TABLE_WORD(at) (*(at))
#endif
#endif

#define FRAME_CHIPS 3u
#define FRAME_DIGITS 3u
#define FRAME_GLYPHS 19u
#define FRAME_DP_2 {0x00, 0x80, 0x00}

/* The character that each row of a digit shows, as Unicode. */
static const uint16_t frame_codes[FRAME_GLYPHS] TABLE_IN_FLASH = {
    0x20, 0x2D, 0x30, 0x31, 0x32, 0x33, 0x34, 0x35, 0x36, 0x37, 0x38, 0x39, 0x41, 0x42, 0x43,
    0x44, 0x45, 0x46, 0x5F,
};

static const uint8_t frame_rows[FRAME_DIGITS][FRAME_GLYPHS][FRAME_CHIPS] TABLE_IN_FLASH = {
    { /* digit 1 */
        {0x00, 0x00, 0x00}, /* blank: dark */
        {0x00, 0x00, 0x40}, /* -: g */
        {0x00, 0x00, 0x3F}, /* 0: a b c d e f */
        {0x00, 0x00, 0x06}, /* 1: b c */
        {0x00, 0x00, 0x5B}, /* 2: a b d e g */
        {0x00, 0x00, 0x4F}, /* 3: a b c d g */
        {0x00, 0x00, 0x66}, /* 4: b c f g */
        {0x00, 0x00, 0x6D}, /* 5: a c d f g */
        {0x00, 0x00, 0x7D}, /* 6: a c d e f g */
        {0x00, 0x00, 0x07}, /* 7: a b c */
        {0x00, 0x00, 0x7F}, /* 8: a b c d e f g */
        {0x00, 0x00, 0x6F}, /* 9: a b c d f g */
        {0x00, 0x00, 0x77}, /* A: a b c e f g */
        {0x00, 0x00, 0x7C}, /* B: c d e f g */
        {0x00, 0x00, 0x39}, /* C: a d e f */
        {0x00, 0x00, 0x5E}, /* D: b c d e g */
        {0x00, 0x00, 0x79}, /* E: a d e f g */
        {0x00, 0x00, 0x71}, /* F: a e f g */
        {0x00, 0x00, 0x08}, /* _: d */
    },
    { /* digit 2 */
        {0x00, 0x00, 0x00}, /* blank: dark */
        {0x00, 0x40, 0x00}, /* -: g */
        {0x00, 0x3F, 0x00}, /* 0: a b c d e f */
        {0x00, 0x06, 0x00}, /* 1: b c */
        {0x00, 0x5B, 0x00}, /* 2: a b d e g */
        {0x00, 0x4F, 0x00}, /* 3: a b c d g */
        {0x00, 0x66, 0x00}, /* 4: b c f g */
        {0x00, 0x6D, 0x00}, /* 5: a c d f g */
        {0x00, 0x7D, 0x00}, /* 6: a c d e f g */
        {0x00, 0x07, 0x00}, /* 7: a b c */
        {0x00, 0x7F, 0x00}, /* 8: a b c d e f g */
        {0x00, 0x6F, 0x00}, /* 9: a b c d f g */
        {0x00, 0x77, 0x00}, /* A: a b c e f g */
        {0x00, 0x7C, 0x00}, /* B: c d e f g */
        {0x00, 0x39, 0x00}, /* C: a d e f */
        {0x00, 0x5E, 0x00}, /* D: b c d e g */
        {0x00, 0x79, 0x00}, /* E: a d e f g */
        {0x00, 0x71, 0x00}, /* F: a e f g */
        {0x00, 0x08, 0x00}, /* _: d */
    },
    { /* digit 3 */
        {0x00, 0x00, 0x00}, /* blank: dark */
        {0x40, 0x00, 0x00}, /* -: g */
        {0x3F, 0x00, 0x00}, /* 0: a b c d e f */
        {0x06, 0x00, 0x00}, /* 1: b c */
        {0x5B, 0x00, 0x00}, /* 2: a b d e g */
        {0x4F, 0x00, 0x00}, /* 3: a b c d g */
        {0x66, 0x00, 0x00}, /* 4: b c f g */
        {0x6D, 0x00, 0x00}, /* 5: a c d f g */
        {0x7D, 0x00, 0x00}, /* 6: a c d e f g */
        {0x07, 0x00, 0x00}, /* 7: a b c */
        {0x7F, 0x00, 0x00}, /* 8: a b c d e f g */
        {0x6F, 0x00, 0x00}, /* 9: a b c d f g */
        {0x77, 0x00, 0x00}, /* A: a b c e f g */
        {0x7C, 0x00, 0x00}, /* B: c d e f g */
        {0x39, 0x00, 0x00}, /* C: a d e f */
        {0x5E, 0x00, 0x00}, /* D: b c d e g */
        {0x79, 0x00, 0x00}, /* E: a d e f g */
        {0x71, 0x00, 0x00}, /* F: a e f g */
        {0x08, 0x00, 0x00}, /* _: d */
    },
};

#endif /* FRAME_TABLE_H */
