# Glyph table: Boules court scoreboard
# Made from: design a32bfd91f8da, segkit 0.1.0
# Bits 7 to 0: dp g f e d c b a; a 1 lights.
# Segments: a on top, clockwise to f, g in the middle, dp the point.
# Drawn 6 with tail, 7 without tail, 9 with tail.
# Frame, in the order of sending (the first byte comes to rest in the farthest chip):
# byte 1: chip 4, digit 4; bits 7 to 0: spare g f e d c b a
# byte 2: chip 3, digit 3; bits 7 to 0: spare g f e d c b a
# byte 3: chip 2, digit 2; bits 7 to 0: spare g f e d c b a
# byte 4: chip 1, digit 1; bits 7 to 0: spare g f e d c b a
# Dark start: hold output-enable high, shift and latch a blank frame, then pull it low.

ORDER = ("dp", "g", "f", "e", "d", "c", "b", "a")  # bit 7 to bit 0
LIT = 1  # the bit value that lights a segment
BLANK = 0x00
POINT = 0x80

GLYPHS = {
    #
    #
    #
    " ": 0x00,  # dark
    #
    #  _
    #
    "-": 0x40,  # g
    #  _
    # | |
    # |_|
    "0": 0x3F,  # a b c d e f
    #
    #   |
    #   |
    "1": 0x06,  # b c
    #  _
    #  _|
    # |_
    "2": 0x5B,  # a b d e g
    #  _
    #  _|
    #  _|
    "3": 0x4F,  # a b c d g
    #
    # |_|
    #   |
    "4": 0x66,  # b c f g
    #  _
    # |_
    #  _|
    "5": 0x6D,  # a c d f g
    #  _
    # |_
    # |_|
    "6": 0x7D,  # a c d e f g
    #  _
    #   |
    #   |
    "7": 0x07,  # a b c
    #  _
    # |_|
    # |_|
    "8": 0x7F,  # a b c d e f g
    #  _
    # |_|
    #  _|
    "9": 0x6F,  # a b c d f g
    #  _
    # |_|
    # | |
    "A": 0x77,  # a b c e f g
    #
    # |_
    # |_|
    "B": 0x7C,  # c d e f g
    #  _
    # |
    # |_
    "C": 0x39,  # a d e f
    #
    #  _|
    # |_|
    "D": 0x5E,  # b c d e g
    #  _
    # |_
    # |_
    "E": 0x79,  # a d e f g
    #  _
    # |_
    # |
    "F": 0x71,  # a e f g
    #
    #
    #  _
    "_": 0x08,  # d
}


def glyph_mask(char):
    """The byte that shows a character; BLANK for one that is not in the table."""
    return GLYPHS.get(char, BLANK)


def with_point(mask):
    """The byte with the point lit as well."""
    return mask | POINT if LIT else mask & (POINT ^ 0xFF)


def digit_bytes(text):
    """One byte a digit, left to right; a point, comma or colon lights the point of the digit before it.

    A colon does so because it sits on the output of that point, unless the frame above says otherwise.
    """
    out = []
    for char in text:
        if char in ".,:" and out:
            out[-1] = with_point(out[-1])
        else:
            out.append(with_point(BLANK) if char in ".,:" else glyph_mask(char))
    return bytes(out)
