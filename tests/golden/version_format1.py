"""Writes the golden vector of the canonical encoding, format 1, apart from the service's own code.

The version is SmallVersion of tests/domain/releases/sample_content.cc (invented). The layout is the
one that services/domain/releases/canonical.h describes. Prints lines of hexadecimal digits.
"""
import math
import sys

sys.dont_write_bytecode = True  # no cache among the sources
from canonical_fields import PATHS, b, cells, d, l, r, s, show, u  # noqa: E402

CHART = ["...x.", ".x...", "...x.", ".....", "....."]
design = (
    u(1, 0) + u(2, 1) + u(3, 0) + u(4, 0)  # spike, two-face, cut, flat
    + u(5, 1)  # working chart
    + u(6, 5) + u(7, 5) + b(8, cells(CHART)) + b(9, b"")
    + r(10, u(1, 2) + u(2, 3))
    + l(12, [s(1, "S") + u(2, 1) + u(3, 1), s(1, "M") + u(2, 4) + u(3, 1)])
    + u(13, 1)
)
yarn_a = s(1, "Oat (invented)") + s(2, "wool") + u(3, 4) + d(4, 10) + d(5, 170) + d(6, 100)
yarn_b = s(1, "Slate (invented)") + s(2, "wool") + d(4, 9.5)
assumptions = (
    l(1, [d(1, a) + d(2, h) + d(3, c * math.pi) for a, h, c in PATHS])
    + d(2, 0.12) + d(3, 0.03) + d(4, 0.5) + d(5, 0.10) + d(6, 50) + d(7, 150) + d(8, 15) + d(9, 1)
)
making = (
    r(1, yarn_a) + r(2, yarn_b) + d(4, 5.5)
    + r(5, d(1, 14) + d(2, 16) + d(3, 0.25))
    + u(7, 0)
    + r(9, u(1, 0))
    + u(10, 0) + d(11, 0) + d(13, 0.05)
    + r(14, u(1, 2) + u(2, 1) + u(3, 1))
    + l(15, [])
    + r(16, u(1, 20) + u(2, 22))
    + d(19, 0.95) + u(20, 0) + u(21, 0)
    + r(22, assumptions)
)
content = (
    s(1, "Fen Ladder (invented)") + r(2, design) + r(3, making)
    + s(4, "A small piece.\nWork loosely.") + s(5, "") + s(6, "Weave in the ends.")
    + s(7, "intermediate") + s(8, "") + u(9, 0) + u(10, 0)
)
show(1, content)
