"""rows and check took any size's name, and went on as if there were none."""

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


class SizeTest(unittest.TestCase):
    def test_a_size_is_written_alone_and_must_be_there(self):
        sized = ("--stitch-band", "3-4", "--size", "small:1x1", "--size", "large:5x1")
        alone = rowproof("rows", *sized, "--size-name", "large")
        self.assertEqual(0, alone.returncode, alone.stderr)
        self.assertIn("16 sts", alone.stdout)
        self.assertNotIn("(16)", alone.stdout)
        for command in ("rows", "check"):
            done = rowproof(command, *sized, "--size-name", "lage")
            self.assertEqual((3, 'rowproof: --size-name must be small or large (got "lage")\n'),
                             (done.returncode, done.stderr))


if __name__ == "__main__":
    unittest.main()
