"""A command that needs an account said only that nobody is signed in, and not how to be."""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402


class TokenTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()
        self.addCleanup(self.server.stop)

    def client(self, *arguments, token=None, given=None):
        environment = dict(os.environ, ROWPROOF_SERVER=self.server.address)
        environment.pop("ROWPROOF_TOKEN", None)
        if token:
            environment["ROWPROOF_TOKEN"] = token
        return subprocess.run([os.path.join(live_server.BUILD, "rowproof"), *arguments],
                              input=given, capture_output=True, text=True, env=environment)

    def test_the_error_names_the_option_and_the_variable(self):
        refused = self.client("pattern", "list")
        self.assertEqual(3, refused.returncode)
        for words in ("--token-file", "ROWPROOF_TOKEN"):
            self.assertIn(words, refused.stderr)
        wrong = self.client("pattern", "list", token="wrong")
        self.assertEqual(3, wrong.returncode)
        self.assertNotIn("this needs your token", wrong.stderr)


if __name__ == "__main__":
    unittest.main()
