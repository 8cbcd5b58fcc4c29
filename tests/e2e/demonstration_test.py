"""deploy/demonstration reaches its end and leaves sound files, twice on one server."""

import os
import pathlib
import re
import subprocess
import unittest

import live_server

TOP = pathlib.Path(__file__).resolve().parent.parent.parent


class DemonstrationTest(unittest.TestCase):
    def test_it_runs_twice(self):
        server = live_server.Server().start()
        try:
            for _ in range(2):
                self.run_once(server)
        finally:
            self.assertEqual(0, server.stop())

    def run_once(self, server):
        done = subprocess.run(
            [str(TOP / "deploy" / "demonstration")], capture_output=True, text=True,
            env=dict(os.environ, ROWPROOF_VAR=server.var, ROWPROOF_BUILD=live_server.BUILD))
        self.assertEqual(0, done.returncode, done.stdout[-2000:] + done.stderr)
        for words in ("1 change makes the chart workable", "draft, 2 errors",
                      "inches-as-centimetres", "entered", "gave the seat up",
                      "reported by Bodo, Dario", "passed over"):
            self.assertIn(words, done.stdout)
        # Commands that are shown may be broken before a path too.
        named = re.findall(r"^  (%s/\S+) \(\d+ bytes\)$" % re.escape(
            os.path.join(server.var, "files")), done.stdout, re.M)
        self.assertEqual(3, len(named), done.stdout[-800:])
        for name in named:
            if name.endswith(".pdf"):
                subprocess.run(["qpdf", "--check", name], check=True, capture_output=True)


if __name__ == "__main__":
    unittest.main()
