"""An overlay chart took "--facing two-face", and was worked one-face."""

import os
import pathlib
import subprocess
import tempfile
import unittest

BUILD = os.environ["ROWPROOF_BUILD"]
STRIPES = "".join(",".join("BA"[row % 2] * 8) + "\n" for row in range(4))


def rowproof(*arguments):
    with tempfile.TemporaryDirectory() as folder:
        chart = pathlib.Path(folder) / "stripes.csv"
        chart.write_text(STRIPES)
        return subprocess.run(
            [os.path.join(BUILD, "rowproof"), arguments[0], str(chart), *arguments[1:]],
            capture_output=True, text=True)


class FacingTest(unittest.TestCase):
    def test_overlay_has_no_other_facing(self):
        for facing in ("two-face", "paired"):
            done = rowproof("check", "--technique", "overlay", "--facing", facing)
            self.assertEqual(3, done.returncode, done.stdout)
            self.assertEqual("rowproof: --facing must be left out, or one-face, as overlay always is "
                             '(got "%s")\n' % facing, done.stderr)
        self.assertEqual(0, rowproof("check", "--technique", "overlay").returncode)
        self.assertEqual(0, rowproof("check", "--technique", "overlay", "--facing",
                                     "one-face").returncode)


if __name__ == "__main__":
    unittest.main()
