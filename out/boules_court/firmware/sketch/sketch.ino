/*
 * Boules court scoreboard
 * 4 digits "88 88" on a chain of 4 registers.
 * Made from design a32bfd91f8da, segkit 0.1.0.
 *
 * A sketch for hobby boards; what a rewired board changes stands first. Type into the serial monitor at
 * 115200 baud: a text to show it, or one of these:
 *   /test  all lit      /dark  nothing lit     /walk  the next output alone, for the walk test
 *   /+ /-  brightness   /scroll TEXT           (the text runs by)
 */
#include <SPI.h>
#include <string.h>

#define IN_FLASH PROGMEM
#define FLASH_BYTE(at) pgm_read_byte(at)
#define FLASH_WORD(at) pgm_read_word(at)

/* ---- Pins of the controller ------------------------------------------------------------------ */

#define PIN_DATA 11 /* to the data input (pin 14) of chip 1 */
#define PIN_CLOCK 13 /* to the shift clock (pin 11) of every chip */
#define PIN_LATCH 10 /* to the latch (pin 12) of every chip */
#define PIN_ENABLE 9 /* to the output-enable (pin 13) of every chip, pulled up with 10 kohm */
#define HARDWARE_SERIAL 1 /* 1: the serial unit, on its own data and clock pins; 0: any pins */

/* ---- Polarity, order and wiring -------------------------------------------------------------- */

#define LIT 1 /* the bit value that lights a segment */
#define CHIPS 4
#define DIGITS 4
static const char layout[] = "88 88"; /* 8 or o a digit, . a point, : a colon, a blank a gap */

/* Segments: A on top, clockwise to F, G in the middle, P the point, Q the colon behind the digit. */
enum { sA = 1, sB = 2, sC = 4, sD = 8, sE = 16, sF = 32, sG = 64, sP = 128, sQ = 256 };
#define L(digit, segments) (uint16_t)((digit) << 9 | (segments)) /* a lamp; digit 1 is the leftmost */
#define SPARE 0

/* What each output lights: bits 7 to 0 of a byte are the outputs QH to QA.
   The byte that is sent first comes to rest in the farthest chip. */
static const uint16_t wiring[CHIPS][8] IN_FLASH = {
    {SPARE,    L(4, sG), L(4, sF), L(4, sE), L(4, sD), L(4, sC), L(4, sB), L(4, sA)}, /* chip 4 */
    {SPARE,    L(3, sG), L(3, sF), L(3, sE), L(3, sD), L(3, sC), L(3, sB), L(3, sA)}, /* chip 3 */
    {SPARE,    L(2, sG), L(2, sF), L(2, sE), L(2, sD), L(2, sC), L(2, sB), L(2, sA)}, /* chip 2 */
    {SPARE,    L(1, sG), L(1, sF), L(1, sE), L(1, sD), L(1, sC), L(1, sB), L(1, sA)}, /* chip 1 */
};

/* The points and colons that each digit has. */
static const uint16_t marks_of[DIGITS] IN_FLASH = {0, 0, 0, 0};

/* ---- Glyphs ---------------------------------------------------------------------------------- */

typedef struct {
    uint8_t code;
    uint8_t segments;
} glyph_row;

static const glyph_row glyphs[] IN_FLASH = {
    {' ', 0},
    /*     */
    /*  _  */
    /*     */ {'-', sG},
    /*  _  */
    /* | | */
    /* |_| */ {'0', sA | sB | sC | sD | sE | sF},
    /*     */
    /*   | */
    /*   | */ {'1', sB | sC},
    /*  _  */
    /*  _| */
    /* |_  */ {'2', sA | sB | sD | sE | sG},
    /*  _  */
    /*  _| */
    /*  _| */ {'3', sA | sB | sC | sD | sG},
    /*     */
    /* |_| */
    /*   | */ {'4', sB | sC | sF | sG},
    /*  _  */
    /* |_  */
    /*  _| */ {'5', sA | sC | sD | sF | sG},
    /*  _  */
    /* |_  */
    /* |_| */ {'6', sA | sC | sD | sE | sF | sG},
    /*  _  */
    /*   | */
    /*   | */ {'7', sA | sB | sC},
    /*  _  */
    /* |_| */
    /* |_| */ {'8', sA | sB | sC | sD | sE | sF | sG},
    /*  _  */
    /* |_| */
    /*  _| */ {'9', sA | sB | sC | sD | sF | sG},
    /*  _  */
    /* |_| */
    /* | | */ {'A', sA | sB | sC | sE | sF | sG},
    /*     */
    /* |_  */
    /* |_| */ {'B', sC | sD | sE | sF | sG},
    /*  _  */
    /* |   */
    /* |_  */ {'C', sA | sD | sE | sF},
    /*     */
    /*  _| */
    /* |_| */ {'D', sB | sC | sD | sE | sG},
    /*  _  */
    /* |_  */
    /* |_  */ {'E', sA | sD | sE | sF | sG},
    /*  _  */
    /* |_  */
    /* |   */ {'F', sA | sE | sF | sG},
    /*     */
    /*     */
    /*  _  */ {'_', sD},
};
/* ---- Brightness: lit counts of a period at each level; the levels look equally far apart ----- */

#define PERIOD 1024
#define LEVELS 9
static const uint16_t lit_counts[LEVELS] IN_FLASH = {0, 15, 45, 100, 189, 317, 494, 727, 1024};

/* What a function says of a text. Unless it is BOARD_SHOWN, the board still shows what it showed. */
typedef enum {
    BOARD_SHOWN,
    BOARD_NO_GLYPH, /* a character that is not in the table of glyphs */
    BOARD_NO_MARK,  /* a point or colon where the board has none */
    BOARD_TOO_LONG, /* more digits than the board has */
    BOARD_GONE_BY   /* board_scroll: the text has left the board */
} board_answer;

/* ---- Pins ------------------------------------------------------------------------------------ */

static void pins_start(void)
{
    digitalWrite(PIN_ENABLE, HIGH); /* first high, then an output: no moment of light */
    pinMode(PIN_ENABLE, OUTPUT);
    digitalWrite(PIN_LATCH, LOW);
    pinMode(PIN_LATCH, OUTPUT);
#if HARDWARE_SERIAL
    SPI.begin();
#else
    pinMode(PIN_DATA, OUTPUT);
    digitalWrite(PIN_CLOCK, LOW);
    pinMode(PIN_CLOCK, OUTPUT);
#endif
#ifdef __AVR_ATmega328P__
    TCCR1A = 1 << WGM11 | 1 << WGM10;
    TCCR1B = 1 << WGM12 | 1 << CS10; /* 15625 pulses a second from 16 MHz */
#endif
}

static void pins_send(const uint8_t *bytes, uint8_t count)
{
    uint8_t i;
#if HARDWARE_SERIAL
    SPI.beginTransaction(SPISettings(1000000, MSBFIRST, SPI_MODE0));
    for (i = 0; i < count; i++) {
        SPI.transfer(bytes[i]);
    }
    SPI.endTransaction();
#else
    for (i = 0; i < count; i++) {
        shiftOut(PIN_DATA, PIN_CLOCK, MSBFIRST, bytes[i]);
    }
#endif
    digitalWrite(PIN_LATCH, HIGH);
    digitalWrite(PIN_LATCH, LOW);
}

/* Output-enable is low for on/PERIOD of the time. */
static void pins_light(uint16_t on)
{
#ifdef __AVR_ATmega328P__
    if (on > 0 && on < PERIOD) {
        OCR1A = on - 1;
        TCCR1A = 1 << WGM11 | 1 << WGM10 | 1 << COM1A1 | 1 << COM1A0;
        return;
    }
    TCCR1A = 1 << WGM11 | 1 << WGM10;
    digitalWrite(PIN_ENABLE, on > 0 ? LOW : HIGH);
#else
    analogWrite(PIN_ENABLE, 255 - (int)(on * 255L / PERIOD)); /* eight bits: coarse near dark */
#endif
}

/* ---- From text to segments ------------------------------------------------------------------- */

#define NO_GLYPH 0x8000u

static uint16_t find_glyph(uint16_t code)
{
    uint8_t i;

    for (i = 0; i < sizeof glyphs / sizeof glyphs[0]; i++) {
        if (FLASH_BYTE(&glyphs[i].code) == code) {
            return FLASH_BYTE(&glyphs[i].segments);
        }
    }
    return NO_GLYPH;
}

/* A letter that the table has in one case only stands for both. */
static uint16_t glyph_of(uint16_t code)
{
    uint16_t segments = find_glyph(code);
    uint16_t capital = code & 0xDFu;

    if (segments == NO_GLYPH && code < 128 && capital >= 'A' && capital <= 'Z') {
        segments = find_glyph(code ^ 0x20u);
    }
    return segments;
}

static uint16_t mark_of(char c)
{
    return c == '.' || c == ',' ? sP : c == ':' ? sQ : 0;
}

/* The glyph of the character that ends at *end, which moves to where it begins. */
static uint16_t last_glyph(const char *text, const char **end)
{
    (void)text;
    return glyph_of((uint8_t)*--*end);
}

/* The same with the points and colons behind it folded in. */
static uint16_t last_cell(const char *text, const char **end)
{
    uint16_t marks = 0;

    while (*end > text && mark_of((*end)[-1])) {
        marks |= mark_of(*--*end);
    }
    return *end > text ? marks | last_glyph(text, end) : marks;
}

/* ---- From segments to the chain -------------------------------------------------------------- */

static uint8_t frame[CHIPS]; /* in the order of sending */

static void show(const uint16_t segments[DIGITS])
{
    uint8_t chip, bit;

    for (chip = 0; chip < CHIPS; chip++) {
        uint8_t byte = 0;

        for (bit = 0; bit < 8; bit++) {
            uint16_t lamp = FLASH_WORD(&wiring[chip][bit]);

            byte = (uint8_t)(byte << 1);
            if (lamp != SPARE && (segments[(lamp >> 9) - 1] & lamp & 0x1FFu)) {
                byte |= 1;
            }
        }
        frame[chip] = LIT ? byte : (uint8_t)~byte;
    }
    pins_send(frame, CHIPS);
}
static void show_everywhere(uint16_t segments)
{
    uint16_t all[DIGITS];
    uint8_t digit;

    for (digit = 0; digit < DIGITS; digit++) {
        all[digit] = segments;
    }
    show(all);
}

/* ---- What a program calls -------------------------------------------------------------------- */

/* Nothing lit. */
void board_dark(void)
{
    show_everywhere(0);
}

/* Lamp test: every segment, point and colon. */
void board_all_lit(void)
{
    show_everywhere(0x1FF);
}

/* Walk test: one output alone. 1 is QA of chip 1 (next to the controller), 9 is QA of chip 2. */
void board_walk(uint16_t output)
{
    uint16_t i = (uint16_t)(output - 1u);

    memset(frame, LIT ? 0x00 : 0xFF, CHIPS);
    if (i < 8u * CHIPS) {
        frame[CHIPS - 1u - i / 8u] ^= (uint8_t)(1u << i % 8u);
    }
    pins_send(frame, CHIPS);
}
/* Brightness: 0 is dark, 8 full; the steps between look equal. */
void board_level(uint8_t level)
{
    pins_light(FLASH_WORD(&lit_counts[level < LEVELS ? level : LEVELS - 1]));
}

/* Dark from the first moment: the outputs hold anything at all until the first latch pulse. */
void board_start(void)
{
    pins_start();
    board_dark();
    board_level(LEVELS - 1);
}

static uint8_t is_ahead(uint8_t place, uint16_t mark)
{
    while (place-- > 0) {
        if (mark_of(layout[place]) == mark) {
            return 1;
        }
    }
    return 0;
}

/* Fits a text to the layout from its right end, leaving some digits there dark. */
static board_answer fit(const char *text, uint8_t dark)
{
    uint16_t segments[DIGITS], marks = 0;
    uint8_t digit = DIGITS, place = sizeof layout - 1;
    const char *end = text + strlen(text);

    while (place-- > 0) {
        uint16_t mark = mark_of(layout[place]);
        uint16_t last = end > text ? mark_of(end[-1]) : 0;

        if (mark || layout[place] == ' ') {
            if (end > text && !dark && (mark ? last == mark : end[-1] == ' ')) {
                marks |= mark;
                end--;
            }
            continue;
        }
        segments[--digit] = marks;
        marks = 0;
        if (dark) {
            dark--;
        } else if (last && !is_ahead(place, last)) {
            return BOARD_NO_MARK;
        } else if (!last && end > text) {
            segments[digit] |= last_glyph(text, &end);
            if (segments[digit] & NO_GLYPH) {
                return BOARD_NO_GLYPH;
            }
        }
    }
    while (end > text) {
        if (*--end != ' ') {
            return mark_of(*end) ? BOARD_NO_MARK : BOARD_TOO_LONG;
        }
    }
    show(segments);
    return BOARD_SHOWN;
}

/* Shows a text flush right. Points and colons light those the board has at that place. */
board_answer board_write(const char *text)
{
    return fit(text, 0);
}

/* The same as far to the left as it fits. */
board_answer board_write_left(const char *text)
{
    uint8_t dark = DIGITS;
    board_answer answer;

    do {
        answer = fit(text, --dark);
    } while (dark > 0 && answer != BOARD_SHOWN);
    return answer;
}

/* A whole number, without leading zeros; 725 with one decimal shows as 72.5. */
board_answer board_number(int32_t value, uint8_t decimals)
{
    char text[14];
    char *start = text + sizeof text - 1;
    uint32_t rest = value < 0 ? 0u - (uint32_t)value : (uint32_t)value;
    uint8_t place = 0;

    if (decimals > 9) {
        return BOARD_TOO_LONG;
    }
    *start = '\0';
    do {
        if (place > 0 && place == decimals) {
            *--start = '.';
        }
        *--start = (char)('0' + rest % 10);
        rest /= 10;
        place++;
    } while (rest > 0 || place <= decimals);
    if (value < 0) {
        *--start = '-';
    }
    return board_write(start);
}

/* One number in front of *end; zeros in front of it become fill. */
static char *put_number(char *end, uint16_t value, uint8_t width, char fill)
{
    uint8_t place;

    for (place = 0; place < width; place++) {
        *--end = place > 0 && value == 0 ? fill : (char)('0' + value % 10);
        value /= 10;
    }
    return end;
}

static board_answer show_groups(uint16_t left, uint16_t right, char fill)
{
    char text[6];
    char *end = text + sizeof text;

    if (left > 99u || right > 99u) {
        return BOARD_TOO_LONG;
    }
    *--end = '\0';
    end = put_number(end, right, 2, fill);
    *--end = ' ';
    end = put_number(end, left, 2, ' ');
    return board_write(end);
}

/* As a clock shows them: " 9 05". */
board_answer board_clock(uint16_t left, uint16_t right)
{
    return show_groups(left, right, '0');
}

/* As scores: "13  8". */
board_answer board_score(uint16_t left, uint16_t right)
{
    return show_groups(left, right, ' ');
}

/* A long text that comes in from the right: what stands on the board after so many steps from 0.
   Marks light where a digit has them. */
board_answer board_scroll(const char *text, uint16_t step)
{
    uint16_t segments[DIGITS], cells = 0;
    uint8_t digit = DIGITS;
    const char *end = text + strlen(text);

    while (end > text) {
        if (last_cell(text, &end) & NO_GLYPH) {
            return BOARD_NO_GLYPH;
        }
        cells++;
    }
    if (step >= cells + (DIGITS - 1u)) {
        board_dark();
        return BOARD_GONE_BY;
    }
    for (end = text + strlen(text); cells > step + 1u; cells--) {
        last_cell(text, &end); /* not in view yet */
    }
    for (; cells < step + 1u && digit > 0; cells++) {
        segments[--digit] = 0; /* has gone by */
    }
    while (digit-- > 0) {
        segments[digit] = last_cell(text, &end) & (0x7Fu | FLASH_WORD(&marks_of[digit]));
    }
    show(segments);
    return BOARD_SHOWN;
}

/* ---- The sketch ------------------------------------------------------------------------------ */

static char line[81];
static uint8_t length, level = LEVELS - 1;
static uint16_t walk_output;

static void next_output(void)
{
    walk_output = walk_output < 8 * CHIPS ? walk_output + 1 : 1;
    board_walk(walk_output);
    Serial.print(F("output "));
    Serial.print(walk_output);
    Serial.print(F(" (chip "));
    Serial.print((walk_output - 1) / 8 + 1);
    Serial.print(F(", Q"));
    Serial.print((char)('A' + (walk_output - 1) % 8));
    Serial.println(F("): what is lit?"));
}

static void say(board_answer answer)
{
    switch (answer) {
    case BOARD_NO_GLYPH:
        Serial.println(F("a character that seven segments cannot show, or that is not in the table"));
        break;
    case BOARD_NO_MARK:
        Serial.println(F("a point or colon where the board has none"));
        break;
    case BOARD_TOO_LONG:
        Serial.println(F("too long for the board"));
        break;
    default:
        break;
    }
}

static void run_by(const char *text)
{
    uint16_t step = 0;
    board_answer answer;

    while ((answer = board_scroll(text, step++)) == BOARD_SHOWN) {
        delay(350);
    }
    say(answer);
}

/* Shows a line, or does what it asks. */
static void obey(void)
{
    if (line[0] != '/') {
        say(board_write(line));
    } else if (strcmp(line, "/test") == 0) {
        board_all_lit();
    } else if (strcmp(line, "/dark") == 0) {
        board_dark();
    } else if (strcmp(line, "/walk") == 0) {
        next_output();
    } else if (strcmp(line, "/+") == 0) {
        level += level < LEVELS - 1;
        board_level(level);
    } else if (strcmp(line, "/-") == 0) {
        level -= level > 0;
        board_level(level);
    } else if (strncmp(line, "/scroll ", 8) == 0) {
        run_by(line + 8);
    } else {
        Serial.println(F("/test /dark /walk /+ /- /scroll TEXT, or a text"));
    }
}

void setup()
{
    board_start(); /* first of all: dark until the chain holds a frame */
    Serial.begin(115200);
    board_all_lit();
    delay(2000);
    say(board_write("13 08"));
}

void loop()
{
    int c = Serial.read();

    if (c == '\n' || c == '\r') {
        line[length] = '\0';
        if (length > 0) {
            obey();
        }
        length = 0;
    } else if (c >= 0 && length < sizeof line - 1) {
        line[length++] = (char)c;
    }
}
