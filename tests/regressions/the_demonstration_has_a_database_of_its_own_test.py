"""deploy/up put an invented designer, testers and a release into the real database at every start.

Runs deploy/up whole, so that build/release is built where it is not.
"""

import os
import pathlib
import subprocess
import tempfile
import unittest

DEPLOY = pathlib.Path(__file__).resolve().parent.parent.parent / "deploy"


class DeployUpTest(unittest.TestCase):
    def run_command(self, command, *options):
        done = subprocess.run([str(DEPLOY / command), "--var", self.var, *options],
                              capture_output=True, text=True)
        self.assertEqual(0, done.returncode, done.stdout + done.stderr)
        return done.stdout

    def accounts(self):
        return subprocess.run(
            ["psql", "-X", "-A", "-t", "-h", os.path.join(self.var, "postgres", "s"), "-U",
             "rowproof", "-d", "rowproof", "-c", "select count(*) from account"],
            check=True, capture_output=True, text=True).stdout.strip()

    def test_up_twice_and_down_twice(self):
        with tempfile.TemporaryDirectory() as folder:
            os.chmod(folder, 0o755)  # user postgres passes through it
            self.var = os.path.join(folder, "a folder")
            try:
                said = self.run_command("up", "--listen", "127.0.0.1:0")
                self.assertEqual("0", self.accounts())
                transcript = pathlib.Path(self.var, "demonstration", "transcript.txt")
                self.assertIn("7. The release", transcript.read_text())
                files = os.listdir(os.path.join(self.var, "demonstration", "files"))
                self.assertEqual(2, sum(name.endswith(".pdf") for name in files), files)
                address = pathlib.Path(self.var, "address").read_text().strip()
                next_steps = said[said.index("Rowproof listens on " + address):].splitlines()
                self.assertLess(len(next_steps), 24)
                when = transcript.stat().st_mtime_ns

                again = self.run_command("up")
                self.assertIn("The server runs already, on " + address, again)
                self.assertEqual(when, transcript.stat().st_mtime_ns)
                self.assertEqual("0", self.accounts())
            finally:
                stopped = self.run_command("down")
            self.assertIn("Stopped: rowproofd on " + address, stopped)
            self.assertIn("No server runs", self.run_command("down"))


if __name__ == "__main__":
    unittest.main()
