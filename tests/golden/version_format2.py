"""Writes the golden vector of the canonical encoding, format 2, apart from the service's own code.

The version is ColourfulVersion of tests/domain/releases/sample_content.cc (invented). The layout is the
one that services/domain/releases/canonical.h describes. Prints lines of hexadecimal digits.
"""
import math
import sys

sys.dont_write_bytecode = True  # no cache among the sources
from canonical_fields import PATHS, b, cells, d, l, r, s, show, u  # noqa: E402

# A picture of 4 rows in colours A, B, C, B; a letter names the colour that a cell shows.
ROWS = "ABCB"
PICTURE = ["BBBB", "CCBC", "BCBB", "AAAA"]
bottom_up = [line[::-1] for line in reversed(PICTURE)]  # row 1 first, stitch 1 first
marks = ["".join("x" if cell != own else "." for cell in reversed(line))
         for line, own in zip(bottom_up, ROWS)][::-1]
letters = "ABCDEFGH"
design = (
    u(1, 1) + u(2, 0) + u(3, 2) + u(4, 1)  # overlay, one-face, waiting, tube
    + u(5, 0)  # picture chart
    + u(6, 4) + u(7, 4) + b(8, cells(marks)) + b(9, bytes(letters.index(c) for c in ROWS))
    + l(12, [s(1, "one size") + u(2, 1) + u(3, 1)])
    + u(13, 1)
    + b(14, bytes(letters.index(c) for line in bottom_up for c in line))
    + u(15, 2)  # on a foundation of stitches in C
)
yarn_a = s(1, "Oat (invented)") + s(2, "wool") + u(3, 4) + d(4, 10) + d(5, 170) + d(6, 100)
yarn_b = s(1, "Slate (invented)") + s(2, "wool") + d(4, 9.5) + d(7, 590.5)
yarn_c = s(1, "Rust (invented)") + s(2, "cotton") + u(3, 4)
assumptions = (
    l(1, [d(1, a) + d(2, h) + d(3, c * math.pi) for a, h, c in PATHS])
    + d(2, 0.12) + d(3, 0.03) + d(4, 0.5) + d(5, 0.10) + d(6, 50) + d(7, 150) + d(8, 15) + d(9, 1)
)
making = (
    r(1, yarn_a) + r(2, yarn_b) + d(4, 5.5)
    + r(5, d(1, 14) + d(2, 16) + d(3, 0.25))
    + u(7, 0)
    + r(9, u(1, 1) + u(2, 2))  # worked, in C
    + u(10, 0) + d(11, 0) + d(13, 0.05)
    + r(14, u(1, 2) + u(2, 3) + u(3, 1))  # a border in C
    + l(15, [u(1, 3) + u(2, 60) + d(3, 120) + u(4, 1)])
    + r(16, u(1, 20) + u(2, 22))
    + d(19, 0.95) + u(20, 0) + u(21, 0)
    + r(22, assumptions)
    + l(23, [yarn_c]) + s(24, "calibrations/invented")
)
words = (
    s(1, "Kiln Tube (invented)") + r(2, design) + r(3, making)
    + s(4, "A small piece.\nWork loosely.") + s(5, "") + s(6, "Weave in the ends.")
    + s(7, "intermediate")
)
if __name__ == "__main__":
    show(2, words + s(8, "") + u(9, 0) + u(10, 0))
