"""Writes the golden vector of the canonical encoding, format 3, apart from the service's own code.

The version is WordyVersion of tests/domain/releases/sample_content.cc (invented): the one of format 2
with a text of the designer's own, whose terms (tag 9) are left to it. Prints lines of hexadecimal
digits.
"""
import sys

sys.dont_write_bytecode = True  # no cache among the sources
from canonical_fields import s, show, u  # noqa: E402
from version_format2 import words  # noqa: E402

TEXT = "Terms: UK.\nRnd 1 (A): dc 4. (4 sts)\nRnd 2 (B): dc, [mtr, dc] once.\n\u2026"
show(3, words + s(8, TEXT) + u(10, 1))  # for left-handed makers
