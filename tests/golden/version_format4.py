"""Writes the golden vector of the canonical encoding, format 4, apart from the service's own code.

The version is ScopedVersion of tests/domain/releases/sample_content.cc (invented): the one of format 2
with what its calibration was measured in. Prints lines of hexadecimal digits.
"""
import sys

sys.dont_write_bytecode = True  # no cache among the sources
from canonical_fields import r, s, show, u  # noqa: E402
from version_format2 import design, making  # noqa: E402

scope = u(1, 1) + u(3, 2) + u(4, 4)  # overlay, ends waiting, weight class 4; no facing
content = (
    s(1, "Kiln Tube (invented)") + r(2, design) + r(3, making + r(26, scope))
    + s(4, "A small piece.\nWork loosely.") + s(5, "") + s(6, "Weave in the ends.")
    + s(7, "intermediate") + s(8, "") + u(9, 0) + u(10, 0)
)
show(4, content)
