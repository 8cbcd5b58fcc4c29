"""Writes the golden vector of the canonical encoding, format 5, apart from the service's own code.

The version is StyledVersion of tests/domain/patterns/sample_content.cc (invented): the one of
format 2 with a style for its rows. Prints lines of hexadecimal digits.
"""
import sys

sys.dont_write_bytecode = True  # no cache among the sources
from canonical_fields import l, r, s, show, u  # noqa: E402
from version_format2 import words  # noqa: E402

names = l(6, [s(1, name) for name in ("oat", "dark slate", "rust")])
style = u(1, 1) + u(2, 1) + u(3, 1) + u(4, 3) + u(5, 1) + names  # left-handed, UK, asterisks, each row
show(5, words + s(8, "") + u(9, 0) + u(10, 0) + r(11, style))
