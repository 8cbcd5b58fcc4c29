"""rowproofd and deploy/up took 127.example.org for this machine and listened in plain text."""

import os
import pathlib
import subprocess
import tempfile
import unittest

BUILD = os.environ["ROWPROOF_BUILD"]
UP = pathlib.Path(__file__).resolve().parent.parent.parent / "deploy" / "up"


class LoopbackNameTest(unittest.TestCase):
    def test_both_refuse_it(self):
        with tempfile.TemporaryDirectory() as folder:
            os.chmod(folder, 0o755)  # user postgres passes through it
            var = os.path.join(folder, "v")
            for command in ([os.path.join(BUILD, "rowproofd"), "serve"], [str(UP)]):
                done = subprocess.run(
                    command + ["--var", var, "--listen", "127.example.org:7420"],
                    capture_output=True, text=True, timeout=120)
                self.assertNotEqual(0, done.returncode)
                self.assertIn("--listen", done.stderr)
                self.assertIn("loopback address", done.stderr)
                self.assertIn("--tls-certificate", done.stderr)


if __name__ == "__main__":
    unittest.main()
