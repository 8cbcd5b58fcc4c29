"""The life of the server's process: one server a folder, and a PostgreSQL that starts after anything."""

import contextlib
import glob
import os
import signal
import subprocess
import tempfile
import time
import unittest

import live_server

PROGRAM = os.path.join(live_server.BUILD, "rowproofd")
POSTGRES = "/usr/lib/postgresql/15/bin/postgres"


def serve_once(var, *options):
    """A serve that is expected to refuse."""
    return subprocess.run([PROGRAM, "serve", "--var", var, "--listen", "127.0.0.1:0", *options],
                          capture_output=True, text=True, timeout=120, env=live_server.environment())


def children_of(pid):
    """Of all of its threads."""
    found = []
    for children in glob.glob("/proc/%d/task/*/children" % pid):
        with open(children) as file:
            found += [int(child) for child in file.read().split()]
    return found


def state_of(pid):
    """The letter of proc(5); None if there is no such process."""
    try:
        with open("/proc/%d/stat" % pid) as file:
            return file.read().rpartition(")")[2].split()[0]
    except FileNotFoundError:
        return None


def await_that(condition, seconds=30):
    end = time.monotonic() + seconds
    while not condition():
        if time.monotonic() > end:
            raise AssertionError("not within %d s" % seconds)
        time.sleep(0.02)


class Fixture(unittest.TestCase):
    def start(self, *options):
        server = live_server.Server(*options)
        self.addCleanup(server.stop)
        return server.start()

    def assert_serves(self, server):
        """With its database: nobody's token is looked up there."""
        self.assertTrue(server.new_designer()[1].startswith("rp_"))


class OneServerTest(Fixture):
    def test_a_second_server_on_a_folder_names_the_first(self):
        server = self.start()
        done = serve_once(server.var)
        self.assertEqual(3, done.returncode)
        self.assertEqual(
            "rowproofd: --var %s is in use by process %d (rowproofd serve); stop it first, or name "
            "another folder.\n" % (server.var, server.process.pid), done.stderr)
        self.assert_serves(server)

    def test_a_deleted_lock_lets_nobody_in(self):
        server = self.start()
        os.remove(os.path.join(server.var, "lock"))
        done = serve_once(server.var)
        self.assertEqual(3, done.returncode)
        self.assertIn("is in use by a process that cannot be seen from here", done.stderr)
        self.assert_serves(server)

    def test_another_database_needs_another_folder_as_well(self):
        server = self.start()
        self.assertIn("is in use by process %d" % server.process.pid,
                      serve_once(server.var, "--database", "host=/nowhere").stderr)

    def test_the_lock_of_a_killed_server_is_free(self):
        server = self.start()
        server.kill()
        # The lock file still names it, and its number may be anybody's by now.
        with open(os.path.join(server.var, "lock"), "w") as lock:
            lock.write("%d 0 serve\n" % os.getpid())
        server.start()
        self.assert_serves(server)

    def test_a_command_leaves_the_database_as_it_was(self):
        server = self.start()
        self.assert_serves(server)
        self.assertIsNone(server.process.poll())
        postmaster = server.postmaster()
        self.assertEqual("S", state_of(postmaster))
        server.process.send_signal(signal.SIGTERM)
        self.assertEqual(0, server.process.wait(timeout=60))
        self.assertIn(state_of(postmaster), (None, "Z"))
        self.assert_serves(server)  # starts and stops it
        self.assertFalse(os.path.exists(os.path.join(server.var, "postgres/data/postmaster.pid")))

    def test_a_server_waits_for_a_command(self):
        server = live_server.Server()
        self.addCleanup(server.stop)
        command = subprocess.Popen([PROGRAM, "admin", "create-designer", "--name", "Ilse Invented",
                                    "--var", server.var], stdout=subprocess.DEVNULL,
                                   env=live_server.environment())
        await_that(lambda: os.path.exists(os.path.join(server.var, "lock")))
        server.start()
        self.assertEqual(0, command.wait(timeout=60))
        self.assert_serves(server)


class PostgresTest(Fixture):
    def dead(self, server):
        """Kills the server and all of its PostgreSQL; the folder of the data."""
        data = os.path.join(server.var, "postgres", "data")
        postmaster = server.postmaster()
        processes = [postmaster, *children_of(postmaster)]
        server.kill()
        for process in processes:
            with contextlib.suppress(ProcessLookupError):  # ended with the first
                os.kill(process, signal.SIGKILL)
        await_that(lambda: all(state_of(process) in (None, "Z") for process in processes))
        return data

    def rewrite_pid(self, path, pid):
        with open(path) as file:
            lines = file.read().split("\n")
        with open(path, "w") as file:
            file.write("\n".join([str(pid), *lines[1:]]))

    def test_after_everything_was_killed(self):
        server = self.start()
        self.dead(server)
        self.assert_serves(server.start())

    def test_after_its_number_became_a_strangers(self):
        server = self.start()
        data = self.dead(server)
        # By the number alone a stranger of the same user is taken for it.
        stranger = subprocess.Popen(["sleep", "600"], user=os.stat(data).st_uid)
        try:
            self.rewrite_pid(os.path.join(data, "postmaster.pid"), stranger.pid)
            self.rewrite_pid(os.path.join(server.var, "postgres/s/.s.PGSQL.5432.lock"), stranger.pid)
            self.assert_serves(server.start())
            self.assertIsNone(stranger.poll())
        finally:
            stranger.kill()
            stranger.wait()

    def test_after_its_number_became_a_zombies(self):
        server = self.start()
        data = self.dead(server)
        zombie = subprocess.Popen(["true"], user=os.stat(data).st_uid)
        try:
            await_that(lambda: state_of(zombie.pid) == "Z")
            self.rewrite_pid(os.path.join(data, "postmaster.pid"), zombie.pid)
            self.rewrite_pid(os.path.join(server.var, "postgres/s/.s.PGSQL.5432.lock"), zombie.pid)
            self.assert_serves(server.start())
            self.assertEqual("Z", state_of(zombie.pid))
        finally:
            zombie.wait()

    def test_after_an_empty_lock_file(self):
        server = self.start()
        data = self.dead(server)
        with open(os.path.join(data, "postmaster.pid"), "w"):
            pass
        self.assert_serves(server.start())

    def test_beside_a_process_of_it_that_was_left(self):
        server = self.start()
        data = os.path.join(server.var, "postgres", "data")
        # A process of PostgreSQL that looks at nothing, as one that computes does.
        postmaster = server.postmaster()
        left = children_of(postmaster)[0]
        os.kill(left, signal.SIGSTOP)
        server.kill()
        os.kill(postmaster, signal.SIGKILL)
        try:
            self.assert_serves(server.start())
            self.assertIn(state_of(left), (None, "Z"))
            self.assertNotEqual(postmaster, server.postmaster())
        finally:
            if os.path.exists("/proc/%d/cwd" % left) and \
                    os.path.samefile("/proc/%d/cwd" % left, data):
                os.kill(left, signal.SIGKILL)

    def test_a_server_takes_over_the_postgres_of_a_killed_one(self):
        server = self.start()
        postmaster = server.postmaster()
        server.kill()
        self.assert_serves(server.start())
        self.assertEqual(postmaster, server.postmaster())

    def test_it_is_started_again_if_it_is_killed(self):
        server = self.start()
        postmaster = server.postmaster()
        os.kill(postmaster, signal.SIGKILL)
        await_that(lambda: os.path.exists(os.path.join(server.var, "postgres/data/postmaster.pid"))
                   and server.postmaster() != postmaster)
        self.assert_serves(server)

    def test_sigterm_ends_a_server_whose_postgres_does_not_answer(self):
        server = self.start()
        server.process.send_signal(signal.SIGTERM)
        server.process.wait(timeout=60)
        # A postgres that starts and never answers.
        with tempfile.TemporaryDirectory() as programs:
            os.chmod(programs, 0o755)
            for name in ("initdb", "createdb"):
                os.symlink("/bin/true", os.path.join(programs, name))
            with open(os.path.join(programs, "postgres"), "w") as script:
                script.write("#!/bin/sh\nexec sleep 600\n")
            os.chmod(os.path.join(programs, "postgres"), 0o755)
            waiting = subprocess.Popen([PROGRAM, "serve", "--var", server.var, "--listen",
                                        "127.0.0.1:0", "--postgres-programs", programs],
                                       stderr=subprocess.PIPE, text=True,
                                       env=live_server.environment())
            await_that(lambda: children_of(waiting.pid))
            sleeping = children_of(waiting.pid)
            waiting.send_signal(signal.SIGTERM)
            said = waiting.communicate(timeout=10)[1]
            for process in sleeping:
                os.kill(process, signal.SIGKILL)
            self.assertIn("was stopped before it answered", said)


class ContainerTest(Fixture):
    """As process 1: by unshare, as a container's first process is."""

    def setUp(self):
        if subprocess.run(["unshare", "--pid", "--fork", "--mount-proc", "true"],
                          capture_output=True).returncode != 0:
            self.skipTest("no PID namespaces for this user")

    def kill_container(self, outer):
        if outer.poll() is None:
            for first in children_of(outer.pid):
                os.kill(first, signal.SIGKILL)
            outer.wait()

    def start_first(self, server):
        address = os.path.join(server.var, "address")
        if os.path.exists(address):
            os.remove(address)
        outer = subprocess.Popen(
            ["unshare", "--pid", "--fork", "--mount-proc", PROGRAM, "serve",
             "--var", server.var, "--listen", "127.0.0.1:0"], stderr=server.log,
            env=live_server.environment())
        self.addCleanup(self.kill_container, outer)
        await_that(lambda: outer.poll() is not None or
                   (os.path.exists(address) and os.path.getsize(address)), 60)
        self.assertIsNone(outer.poll(), server.log_text())
        return outer, children_of(outer.pid)[0]

    def test_process_1_asks_for_the_end_of_its_children(self):
        server = live_server.Server()
        self.addCleanup(lambda: server.log.close())
        outer, first = self.start_first(server)
        lost = subprocess.run(
            ["nsenter", "--target", str(first), "--pid", "--mount", "sh", "-c",
             "(sleep 0.3 &) ; true"])
        self.assertEqual(0, lost.returncode)
        before = children_of(first)
        postmaster = max(before, key=lambda pid: len(children_of(pid)))
        os.kill(postmaster, signal.SIGKILL)
        await_that(lambda: state_of(postmaster) is None)
        await_that(lambda: all(state_of(child) != "Z" for child in children_of(first)))
        await_that(lambda: any(children_of(child) for child in children_of(first)))
        os.kill(first, signal.SIGTERM)
        self.assertEqual(0, outer.wait(timeout=60))

    def test_killed_containers_on_one_folder(self):
        server = live_server.Server()
        self.addCleanup(lambda: server.log.close())
        for _ in range(3):  # numbers are the same in each
            outer, first = self.start_first(server)
            os.kill(first, signal.SIGKILL)
            outer.wait(timeout=60)
        outer, first = self.start_first(server)
        os.kill(first, signal.SIGTERM)
        self.assertEqual(0, outer.wait(timeout=60))


if __name__ == "__main__":
    unittest.main()
