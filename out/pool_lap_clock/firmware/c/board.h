/*
 * Pool lap clock: the functions of board.c.
 * Made from design a08162591586, segkit 0.1.0.
 */
#ifndef BOARD_H
#define BOARD_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* What a function says of a text. Unless it is BOARD_SHOWN, the board still shows what it showed. */
typedef enum {
    BOARD_SHOWN,
    BOARD_NO_GLYPH, /* a character that is not in the table of glyphs */
    BOARD_NO_MARK,  /* a point or colon where the board has none */
    BOARD_TOO_LONG, /* more digits than the board has */
    BOARD_GONE_BY   /* board_scroll: the text has left the board */
} board_answer;

/* Nothing lit. */
void board_dark(void);

/* Lamp test: every segment, point and colon. */
void board_all_lit(void);

/* Walk test: one output alone. 1 is QA of chip 1 (next to the controller), 9 is QA of chip 2. */
void board_walk(uint16_t output);

/* Brightness: 0 is dark, 8 full; the steps between look equal. */
void board_level(uint8_t level);

/* Dark from the first moment: the outputs hold anything at all until the first latch pulse. */
void board_start(void);

/* Shows a text flush right. Points and colons light those the board has at that place. */
board_answer board_write(const char *text);

/* The same as far to the left as it fits. */
board_answer board_write_left(const char *text);

/* A whole number, without leading zeros; 725 with one decimal shows as 72.5. */
board_answer board_number(int32_t value, uint8_t decimals);

/* As a clock shows them: " 9:05". */
board_answer board_clock(uint16_t left, uint16_t right);

/* As scores: "13: 8". */
board_answer board_score(uint16_t left, uint16_t right);

/* A long text that comes in from the right: what stands on the board after so many steps from 0.
   Marks light where a digit has them. */
board_answer board_scroll(const char *text, uint16_t step);


/* For another controller write these three; board.c has them for 8-bit AVRs. */
void pins_start(void);                               /* output-enable high, the others ready */
void pins_send(const uint8_t *bytes, uint8_t count); /* bit 7 first, then a pulse on latch */
void pins_light(uint16_t on);                        /* output-enable low for on/1024 of the time */

#ifdef __cplusplus
}
#endif

#endif /* BOARD_H */
