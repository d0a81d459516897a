/*
 * Glyph table: Pool lap clock
 * Made from: design a08162591586, segkit 0.1.0
 * Bits 7 to 0: dp g f e d c b a; a 1 lights.
 * Segments: a on top, clockwise to f, g in the middle, dp the point.
 * Drawn 6 with tail, 7 without tail, 9 with tail.
 * Frame, in the order of sending (the first byte comes to rest in the farthest chip):
 * byte 1: chip 4, digit 4; bits 7 to 0: spare g f e d c b a
 * byte 2: chip 3, digit 3; bits 7 to 0: spare g f e d c b a
 * byte 3: chip 2, digit 2; bits 7 to 0: colon g f e d c b a
 * byte 4: chip 1, digit 1; bits 7 to 0: spare g f e d c b a
 * Dark start: hold output-enable high, shift and latch a blank frame, then pull it low.
 */
#ifndef GLYPH_TABLE_H
#define GLYPH_TABLE_H

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

#define GLYPH_BIT_DP 7u
#define GLYPH_BIT_G 6u
#define GLYPH_BIT_F 5u
#define GLYPH_BIT_E 4u
#define GLYPH_BIT_D 3u
#define GLYPH_BIT_C 2u
#define GLYPH_BIT_B 1u
#define GLYPH_BIT_A 0u

#define GLYPH_LIT 1u        /* the bit value that lights a segment */
#define GLYPH_BLANK 0x00u   /* nothing lit */
#define GLYPH_POINT 0x80u   /* the bit of the point */
#define GLYPH_COUNT 19u

typedef struct {
    uint16_t code; /* Unicode code point, equal to ASCII up to 126 */
    uint8_t mask;
} glyph_row;

static const glyph_row glyph_rows[GLYPH_COUNT] TABLE_IN_FLASH = {
    /*      */
    /*      */
    /*      */
    {0x0020u, 0x00u}, /* SPACE: dark */
    /*      */
    /*  _   */
    /*      */
    {0x002Du, 0x40u}, /* HYPHEN-MINUS: g */
    /*  _   */
    /* | |  */
    /* |_|  */
    {0x0030u, 0x3Fu}, /* DIGIT ZERO: a b c d e f */
    /*      */
    /*   |  */
    /*   |  */
    {0x0031u, 0x06u}, /* DIGIT ONE: b c */
    /*  _   */
    /*  _|  */
    /* |_   */
    {0x0032u, 0x5Bu}, /* DIGIT TWO: a b d e g */
    /*  _   */
    /*  _|  */
    /*  _|  */
    {0x0033u, 0x4Fu}, /* DIGIT THREE: a b c d g */
    /*      */
    /* |_|  */
    /*   |  */
    {0x0034u, 0x66u}, /* DIGIT FOUR: b c f g */
    /*  _   */
    /* |_   */
    /*  _|  */
    {0x0035u, 0x6Du}, /* DIGIT FIVE: a c d f g */
    /*  _   */
    /* |_   */
    /* |_|  */
    {0x0036u, 0x7Du}, /* DIGIT SIX: a c d e f g */
    /*  _   */
    /*   |  */
    /*   |  */
    {0x0037u, 0x07u}, /* DIGIT SEVEN: a b c */
    /*  _   */
    /* |_|  */
    /* |_|  */
    {0x0038u, 0x7Fu}, /* DIGIT EIGHT: a b c d e f g */
    /*  _   */
    /* |_|  */
    /*  _|  */
    {0x0039u, 0x6Fu}, /* DIGIT NINE: a b c d f g */
    /*  _   */
    /* |_|  */
    /* | |  */
    {0x0041u, 0x77u}, /* LATIN CAPITAL LETTER A: a b c e f g */
    /*      */
    /* |_   */
    /* |_|  */
    {0x0042u, 0x7Cu}, /* LATIN CAPITAL LETTER B: c d e f g */
    /*  _   */
    /* |    */
    /* |_   */
    {0x0043u, 0x39u}, /* LATIN CAPITAL LETTER C: a d e f */
    /*      */
    /*  _|  */
    /* |_|  */
    {0x0044u, 0x5Eu}, /* LATIN CAPITAL LETTER D: b c d e g */
    /*  _   */
    /* |_   */
    /* |_   */
    {0x0045u, 0x79u}, /* LATIN CAPITAL LETTER E: a d e f g */
    /*  _   */
    /* |_   */
    /* |    */
    {0x0046u, 0x71u}, /* LATIN CAPITAL LETTER F: a e f g */
    /*      */
    /*      */
    /*  _   */
    {0x005Fu, 0x08u}, /* LOW LINE: d */
};

/* The byte that shows a character; GLYPH_BLANK for one that is not in the table. */
static inline uint8_t glyph_mask(uint16_t code)
{
    unsigned int i;

    for (i = 0u; i < GLYPH_COUNT; i++) {
        if (TABLE_WORD(&glyph_rows[i].code) == code) {
            return TABLE_BYTE(&glyph_rows[i].mask);
        }
    }
    return GLYPH_BLANK;
}

/* The same byte with the point lit as well. */
static inline uint8_t glyph_mask_with_point(uint16_t code)
{
    return (uint8_t)(glyph_mask(code) | GLYPH_POINT);
}

#endif /* GLYPH_TABLE_H */
