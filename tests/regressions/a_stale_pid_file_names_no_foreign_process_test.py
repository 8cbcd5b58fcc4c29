"""deploy/up and deploy/down took whatever process had the number in a left-over pid file for the
server, and deploy/down ended it."""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402

DEPLOY = pathlib.Path(__file__).resolve().parent.parent.parent / "deploy"


def deploy(command, *arguments):
    return subprocess.run([str(DEPLOY / command), *arguments], capture_output=True, text=True,
                          timeout=120)


def write_pid(var, pid):
    os.makedirs(var, exist_ok=True)
    with open(os.path.join(var, "rowproofd.pid"), "w") as file:
        file.write("%d\n" % pid)


class StalePidFileTest(unittest.TestCase):
    def test_a_foreign_process_is_left_alone(self):
        with tempfile.TemporaryDirectory() as folder:
            var = os.path.join(folder, "var")
            foreign = subprocess.Popen(["sleep", "600"])
            try:
                write_pid(var, foreign.pid)
                done = deploy("down", "--var", var)
                self.assertEqual((0, "No server runs on %s.\n" % var, ""),
                                 (done.returncode, done.stdout, done.stderr))
                self.assertIsNone(foreign.poll())
                self.assertFalse(os.path.exists(os.path.join(var, "rowproofd.pid")))
            finally:
                foreign.kill()
                foreign.wait()

    def test_the_server_of_another_folder_is_left_alone(self):
        server = live_server.Server().start()
        try:
            other = os.path.join(server.folder, "other")
            write_pid(other, server.process.pid)
            self.assertIn("No server runs on", deploy("down", "--var", other).stdout)
            self.assertIsNone(server.process.poll())
        finally:
            self.assertEqual(0, server.stop())

    def test_down_stops_the_server_and_says_so(self):
        server = live_server.Server().start()
        try:
            write_pid(server.var, server.process.pid)
            # Its end is only seen once its parent, this process, has asked for it.
            stopping = subprocess.Popen([str(DEPLOY / "down"), "--var", server.var],
                                        stdout=subprocess.PIPE, text=True)
            self.assertEqual(0, server.process.wait(timeout=60))
            said = stopping.communicate(timeout=60)[0]
            self.assertEqual(0, stopping.returncode)
            self.assertIn("Stopped: rowproofd on %s (process %d)" % (
                server.address, server.process.pid), said)
        finally:
            server.stop()

    def test_down_stops_the_database_of_a_killed_server(self):
        server = live_server.Server().start()
        try:
            postmaster = server.postmaster()
            server.kill()
            self.assertIn("PostgreSQL (process %d)" % postmaster,
                          deploy("down", "--var", server.var).stdout)
            with self.assertRaises(ProcessLookupError):
                os.kill(postmaster, 0)
        finally:
            server.stop()


if __name__ == "__main__":
    unittest.main()
