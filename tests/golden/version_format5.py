"""Writes the golden vector of the canonical encoding, format 5, apart from the service's own code.

The version is NamedColoursVersion of tests/domain/patterns/sample_content.cc (invented): the one of
format 2 with names for its colours. Prints lines of hexadecimal digits.
"""
import sys

sys.dont_write_bytecode = True  # no cache among the sources
from canonical_fields import l, s, show, u  # noqa: E402
from version_format2 import words  # noqa: E402

names = l(11, [s(1, name) for name in ("oat", "dark slate", "rust")])
show(5, words + s(8, "") + u(9, 0) + u(10, 0) + names)
