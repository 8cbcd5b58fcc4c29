"""deploy/up and deploy/down took whatever process had the number in a left-over file for the server,
and deploy/down ended it. Now they ask who holds the lock."""

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


def started(pid):
    """Field 22 of proc(5)."""
    with open("/proc/%d/stat" % pid) as file:
        return int(file.read().rpartition(")")[2].split()[19])


def leave_lock_file(var, pid):
    """As a server leaves it that had this number and was killed."""
    os.makedirs(var, exist_ok=True)
    with open(os.path.join(var, "lock"), "w") as file:
        file.write("%d %d serve\n" % (pid, started(pid)))


class StalePidFileTest(unittest.TestCase):
    def test_a_foreign_process_is_left_alone(self):
        with tempfile.TemporaryDirectory() as folder:
            var = os.path.join(folder, "var")
            foreign = subprocess.Popen(["sleep", "600"])
            try:
                leave_lock_file(var, foreign.pid)
                done = deploy("down", "--var", var)
                self.assertEqual((0, "No server runs on %s.\n" % var, ""),
                                 (done.returncode, done.stdout, done.stderr))
                self.assertIsNone(foreign.poll())
            finally:
                foreign.kill()
                foreign.wait()

    def test_the_server_of_another_folder_is_left_alone(self):
        server = live_server.Server().start()
        try:
            other = os.path.join(server.folder, "other")
            leave_lock_file(other, server.process.pid)
            self.assertIn("No server runs on", deploy("down", "--var", other).stdout)
            self.assertIsNone(server.process.poll())
        finally:
            self.assertEqual(0, server.stop())

    def test_down_stops_the_server_and_says_so(self):
        server = live_server.Server().start()
        try:
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

    def test_a_database_is_no_server_and_a_foreign_one_is_left_alone(self):
        with tempfile.TemporaryDirectory() as folder:
            var = os.path.join(folder, "var")
            os.makedirs(os.path.join(var, "postgres", "data"))
            # Of PostgreSQL's name, and working in another folder.
            foreign = subprocess.Popen(["postgres", "600"], executable="/bin/sleep", cwd=folder)
            try:
                with open(os.path.join(var, "postgres", "data", "postmaster.pid"), "w") as file:
                    file.write("%d\n" % foreign.pid)
                self.assertIn("No server runs on", deploy("down", "--var", var).stdout)
                self.assertIsNone(foreign.poll())
            finally:
                foreign.kill()
                foreign.wait()

    def test_down_stops_the_database_of_a_killed_server(self):
        server = live_server.Server().start()
        try:
            postmaster = server.postmaster()
            server.kill()
            self.assertIn("PostgreSQL (process %d)" % postmaster,
                          deploy("down", "--var", server.var).stdout)
            # It may still be on its way out, or wait for its parent to ask; a zombie works nowhere.
            self.assertFalse(os.path.exists("/proc/%d/cwd" % postmaster))
        finally:
            server.stop()


if __name__ == "__main__":
    unittest.main()
