"""deploy/up built for minutes before it said that its port was taken."""

import os
import pathlib
import socket
import subprocess
import tempfile
import unittest

UP = pathlib.Path(__file__).resolve().parent.parent.parent / "deploy" / "up"


class TakenPortTest(unittest.TestCase):
    def refusal(self, *options):
        """The one line that deploy/up ends with, before it builds."""
        with tempfile.TemporaryDirectory() as folder:
            os.chmod(folder, 0o755)  # user postgres passes through it
            done = subprocess.run([str(UP), "--var", os.path.join(folder, "v"), *options],
                                  capture_output=True, text=True, timeout=120)
        self.assertEqual((1, ""), (done.returncode, done.stdout))
        self.assertEqual(1, len(done.stderr.splitlines()), done.stderr)
        return done.stderr

    def test_a_taken_port(self):
        with socket.create_server(("127.0.0.1", 0)) as other:
            listen = "127.0.0.1:%d" % other.getsockname()[1]
            said = self.refusal("--listen", listen)
        self.assertIn(listen + " is in use by another program", said)
        self.assertIn("choose another port", said)

    def test_what_else_cannot_work(self):
        for options, words in ((["--listen", "nonsense"], "--listen"),
                               (["--listen", "127.0.0.1:99999"], "ADDRESS:PORT"),
                               (["--listen", "0.0.0.0:7420"], "--tls-certificate"),
                               (["--var", "/" + "v" * 90], "at most 68 bytes"),
                               (["--nonsense"], "not an option")):
            self.assertIn(words, self.refusal(*options))


if __name__ == "__main__":
    unittest.main()
