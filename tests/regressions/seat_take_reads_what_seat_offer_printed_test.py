"""What "seat offer" printed could not be given to "seat take": only the invitation alone was read."""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402

CHART = "AAAAAA\nBBABBB\nAAAAAA\nBBBBBB\nAAAAAA\n"


class SeatTakeTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()
        self.addCleanup(self.server.stop)
        self.token = self.server.new_designer()[1]
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.chart = os.path.join(folder.name, "chart.csv")
        pathlib.Path(self.chart).write_text(
            "\n".join(",".join(line) for line in CHART.split()) + "\n", encoding="utf-8")

    def client(self, *arguments, token=None, given=None):
        environment = dict(os.environ, ROWPROOF_SERVER=self.server.address)
        environment.pop("ROWPROOF_TOKEN", None)
        if token:
            environment["ROWPROOF_TOKEN"] = token
        done = subprocess.run([os.path.join(live_server.BUILD, "rowproof"), *arguments],
                              input=given, capture_output=True, text=True, env=environment)
        self.assertEqual(0, done.returncode, done.stderr)
        return done.stdout

    def made(self, *arguments):
        return json.loads(self.client(*arguments, "--json", token=self.token))["name"]

    def test_the_whole_text_is_read_also_when_a_mail_quotes_it(self):
        pattern = self.made("pattern", "new", "Sedge Mat (invented)")
        version = self.made("version", "submit", pattern, self.chart, "--gauge", "15x17/10cm",
                            "--weight-class", "4", "--size", "one:1x1")
        call = self.made("testcall", "new", pattern, "--version", version, "--title", "Testers",
                         "--want", "one:3:1")
        self.client("testcall", "open", call, token=self.token)
        for quoted in (False, True):
            offer = self.client("seat", "offer", call, "one", token=self.token)
            if quoted:
                offer = "Dear tester,\n" + "".join("> %s\n" % line for line in offer.splitlines())
            self.assertIn("The seat is yours: " + call, self.client(
                "seat", "take", "-", "--name", "Ines Invented", given=offer))


if __name__ == "__main__":
    unittest.main()
