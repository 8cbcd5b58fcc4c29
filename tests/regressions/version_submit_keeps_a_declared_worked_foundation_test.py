"""A worked foundation given to "version submit" stood in the estimate and not in the design, so that
a chart which passed "check" became a draft and the sheet printed another foundation."""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402

# Stitch 3 of row 1 shows B: a drop of row 2, which only a foundation in B anchors.
CHART = "xxxxx\n.....\nxxxxx\n..x..\n"
FOUNDATION = ["--foundation", "worked", "--foundation-colour", "B"]
MATERIALS = ["--gauge", "15x17/10cm", "--weight-class", "4"]


class VersionSubmitTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()
        self.addCleanup(self.server.stop)
        self.token = self.server.new_designer()[1]
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.chart = os.path.join(folder.name, "chart.csv")
        pathlib.Path(self.chart).write_text(CHART, encoding="utf-8")

    def client(self, *arguments):
        return subprocess.run(
            [os.path.join(live_server.BUILD, "rowproof"), *arguments], capture_output=True,
            text=True, env=dict(os.environ, ROWPROOF_SERVER=self.server.address,
                                ROWPROOF_TOKEN=self.token))

    def done(self, *arguments):
        done = self.client(*arguments)
        self.assertEqual(0, done.returncode, done.stderr)
        return done.stdout

    def test_the_version_is_workable_and_its_rows_name_the_foundation(self):
        self.assertEqual(1, self.client("check", self.chart).returncode)
        self.done("check", self.chart, *FOUNDATION)
        pattern = self.name_in(self.done("pattern", "new", "Sedge Mat (invented)"), "patterns/")
        submitted = self.done("version", "submit", pattern, self.chart, *FOUNDATION, *MATERIALS)
        self.assertNotIn("draft", submitted.lower())
        version = self.name_in(submitted, pattern + "/versions/")
        self.assertIn("Foundation: with colour B", self.done("version", "rows", version))

    def name_in(self, text, start):
        found = [word.rstrip(".,") for word in text.split() if word.startswith(start)]
        self.assertTrue(found, text)
        return found[0]


if __name__ == "__main__":
    unittest.main()
