"""An overlay chart took "--facing two-face" and was worked one-face; rows and check took any size's name."""

import os
import pathlib
import subprocess
import tempfile
import unittest

BUILD = os.environ["ROWPROOF_BUILD"]
CHART = "".join("A" * 8 + "\n" if row % 2 else "B" * 8 + "\n" for row in range(4)).replace(
    "AAAA", "A,A,A,A,").replace("BBBB", "B,B,B,B,").replace(",\n", "\n")


def rowproof(*arguments):
    with tempfile.TemporaryDirectory() as folder:
        chart = pathlib.Path(folder) / "stripes.csv"
        chart.write_text(CHART)
        return subprocess.run([os.path.join(BUILD, "rowproof"), arguments[0], str(chart), *arguments[1:]],
                              capture_output=True, text=True)


class TakenButIgnoredTest(unittest.TestCase):
    def test_overlay_has_no_other_facing(self):
        for facing in ("two-face", "paired"):
            done = rowproof("check", "--technique", "overlay", "--facing", facing)
            self.assertEqual(3, done.returncode, done.stdout)
            self.assertEqual("rowproof: --facing must be left out, or one-face, as overlay always is "
                             '(got "%s")\n' % facing, done.stderr)
        self.assertEqual(0, rowproof("check", "--technique", "overlay").returncode)
        self.assertEqual(0, rowproof("check", "--technique", "overlay", "--facing",
                                     "one-face").returncode)

    def test_a_size_is_written_alone_and_must_be_there(self):
        sized = ("--stitch-band", "3-4", "--size", "small:1x1", "--size", "large:5x1")
        alone = rowproof("rows", *sized, "--size-name", "large")
        self.assertEqual(0, alone.returncode, alone.stderr)
        self.assertIn("16 sts", alone.stdout)
        self.assertNotIn("(16)", alone.stdout)
        for command in ("rows", "check"):
            done = rowproof(command, *sized, "--size-name", "lage")
            self.assertEqual((3, 'rowproof: --size-name: there is no size "lage"; there is small or '
                              "large\n"), (done.returncode, done.stderr))


if __name__ == "__main__":
    unittest.main()
