"""What a design file says about rows was not submitted: every row of a text that called a colour by its
name was at fault, and the version's rows were in other terms, for the other hand."""

import pathlib
import os
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402

CHART = "xxxxx\n.....\nxx.xx\n.....\n"
DESIGN = """[rows]
colour_names = ["Oat", "Slate"]
terms = "uk"
hand = "left"
repeats = "asterisk"
every_row = true
"""
MATERIALS = ["--gauge", "15x17/10cm", "--weight-class", "4"]


def rows_in(text):
    rows = [line for line in text.splitlines() if line.startswith("Row ")]
    assert len(rows) == 4, text
    return "\n".join(rows) + "\n"


class VersionSubmitTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()
        self.addCleanup(self.server.stop)
        self.token = self.server.new_designer()[1]
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        self.chart = self.write("chart.csv", CHART)
        self.design = self.write("chart.toml", DESIGN)

    def write(self, name, text):
        path = self.folder / name
        path.write_text(text, encoding="utf-8")
        return str(path)

    def done(self, *arguments):
        done = subprocess.run(
            [os.path.join(live_server.BUILD, "rowproof"), *arguments], capture_output=True,
            text=True, env=dict(os.environ, ROWPROOF_SERVER=self.server.address,
                                ROWPROOF_TOKEN=self.token))
        self.assertEqual(0, done.returncode, done.stderr)
        return done.stdout

    def test_rows_and_own_text_use_them(self):
        pattern = self.name_in(self.done("pattern", "new", "Sedge Mat (invented)"), "patterns/")
        written = self.done("rows", self.chart)
        self.assertIn("Oat", written)
        version = self.name_in(self.done("version", "submit", pattern, self.chart, *MATERIALS),
                               pattern + "/versions/")
        self.assertEqual(rows_in(written), rows_in(self.done("version", "rows", version)))
        us = rows_in(self.done("version", "rows", version, "--terms", "us"))
        self.assertNotEqual(rows_in(written), us)
        self.assertIn("RS, Oat", us)
        # The rows alone: nothing in the text says which colour is called Oat.
        own = self.write("own.txt", rows_in(written))
        self.assertIn("0 errors", self.done("version", "submit", pattern, self.chart, *MATERIALS,
                                            "--text", own))

    def name_in(self, text, start):
        found = [word.rstrip(".,") for word in text.split() if word.startswith(start)]
        self.assertTrue(found, text)
        return found[0]


if __name__ == "__main__":
    unittest.main()
