"""What was acknowledged outlives the server and its PostgreSQL, however they end."""

import os
import signal
import subprocess
import threading
import time
import unittest

import live_server
import patterns_test

import grpc
from rowproof.v1 import pattern_pb2
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import pattern_service_pb2_grpc


def serving(server):
    """True or False as grpc.health.v1.Health/Check says; None where nobody answers."""
    check = server.channel().unary_unary("/grpc.health.v1.Health/Check",
                                         request_serializer=bytes, response_deserializer=bytes)
    try:
        # HealthCheckResponse.status is field 1, SERVING is 1 (the published health.proto).
        return check(b"", timeout=2) == b"\x08\x01"
    except grpc.RpcError:
        return None


def wait_until(condition, seconds=60):
    deadline = time.monotonic() + seconds
    while not condition():
        if time.monotonic() > deadline:
            raise AssertionError("did not come about within %d s" % seconds)
        time.sleep(0.05)


class Writer(threading.Thread):
    """Submits versions until stopped; repeats each request until it is acknowledged."""

    def __init__(self, test):
        super().__init__()
        self.test = test
        self.acknowledged = []
        self.ending = threading.Event()

    def run(self):
        while not self.ending.is_set():
            request = patterns.CreateVersionRequest(
                parent=self.test.pattern,
                content=patterns_test.content(patterns_test.picture(30, 40)),
                request_id=live_server.request_id())
            while True:
                try:
                    version = self.test.stub().CreateVersion(request, timeout=10)
                    self.acknowledged.append(version.number)
                    break
                except grpc.RpcError as error:
                    assert error.code() in (grpc.StatusCode.UNAVAILABLE,
                                            grpc.StatusCode.DEADLINE_EXCEEDED), error
                    time.sleep(0.05)


class FaultsTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()
        _, self.token = self.server.new_designer()
        self.pattern = self.stub().CreatePattern(
            patterns.CreatePatternRequest(title="Invented")).name

    def tearDown(self):
        self.server.stop()

    def stub(self):
        return pattern_service_pb2_grpc.PatternServiceStub(self.server.channel(self.token))

    def run_through(self, blow):
        writer = Writer(self)
        writer.start()
        try:
            for _ in range(3):
                target = len(writer.acknowledged) + 5
                wait_until(lambda: len(writer.acknowledged) >= target)
                blow()
            target = len(writer.acknowledged) + 5
            wait_until(lambda: len(writer.acknowledged) >= target)
        finally:
            writer.ending.set()
            writer.join()
        count = int(self.server.psql("select count(*) from version"))
        # Nothing acknowledged is lost, and no repeated request made a second version.
        self.assertEqual(sorted(writer.acknowledged), list(range(1, count + 1)))

    def test_a_killed_server_loses_and_doubles_nothing(self):
        def blow():
            self.server.kill()
            self.server.start(listen=self.server.address)
        self.run_through(blow)

    def test_a_killed_postgresql_loses_and_doubles_nothing(self):
        def blow():
            postmaster = self.server.postmaster()
            os.kill(postmaster, signal.SIGKILL)
            wait_until(lambda: not os.path.exists("/proc/%d" % postmaster))
        self.run_through(blow)

    def test_health_follows_the_database(self):
        wait_until(lambda: serving(self.server) is True)
        # Stopped, not ended: it cannot be started again, so the server has nothing to mend.
        postmaster = self.server.postmaster()
        children = subprocess.run(["pgrep", "-P", str(postmaster)], capture_output=True,
                                  text=True).stdout.split()
        stopped = [postmaster] + [int(child) for child in children]
        for process in stopped:
            os.kill(process, signal.SIGSTOP)
        try:
            wait_until(lambda: serving(self.server) is False)
        finally:
            for process in stopped:
                os.kill(process, signal.SIGCONT)
        wait_until(lambda: serving(self.server) is True)

    def test_sigterm_lets_calls_in_flight_finish(self):
        # Another session holds the pattern's row, so that the call is surely under way.
        key = self.pattern.split("/")[1]
        holder = subprocess.Popen(
            ["psql", "-X", "-q", "-h", os.path.join(self.server.var, "postgres", "s"), "-U",
             "rowproof", "-d", "rowproof"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        holder.stdin.write("begin;\nselect 1 from pattern where pattern_id = '%s' for update;\n"
                           "\\echo held\n" % key)
        holder.stdin.flush()
        while "held" not in holder.stdout.readline():
            pass
        future = self.stub().CreateVersion.future(patterns.CreateVersionRequest(
            parent=self.pattern,
            content=patterns_test.content(patterns_test.picture(40, 30))), timeout=30)
        wait_until(lambda: self.server.psql(
            "select count(*) from pg_stat_activity where wait_event_type = 'Lock'") == "1")
        self.server.process.send_signal(signal.SIGTERM)
        wait_until(lambda: "stopping" in self.server.log_text())
        self.assertFalse(future.done())
        holder.stdin.write("commit;\n")
        holder.stdin.close()
        self.assertEqual(1, future.result().number)
        holder.stdout.close()
        holder.wait()
        self.server.process.wait(timeout=60)
        self.assertEqual(0, self.server.process.returncode)
        self.assertIn("stopped", self.server.log_text())

    def test_a_call_ends_with_its_deadline(self):
        key = self.pattern.split("/")[1]
        holder = subprocess.Popen(
            ["psql", "-X", "-q", "-h", os.path.join(self.server.var, "postgres", "s"), "-U",
             "rowproof", "-d", "rowproof", "-c",
             "begin; select 1 from pattern where pattern_id = '%s' for update; "
             "select pg_sleep(5); commit" % key], stdout=subprocess.DEVNULL)
        wait_until(lambda: self.server.psql(
            "select count(*) from pg_stat_activity where wait_event = 'PgSleep'") == "1")
        with self.assertRaises(grpc.RpcError) as caught:
            self.stub().UpdatePattern(patterns.UpdatePatternRequest(
                pattern=pattern_pb2.Pattern(name=self.pattern, title="Never")), timeout=0.5)
        self.assertEqual(grpc.StatusCode.DEADLINE_EXCEEDED, caught.exception.code())
        holder.wait()
        self.assertEqual("Invented", self.server.psql("select title from pattern"))

    def test_a_newer_database_is_refused(self):
        self.server.psql("insert into schema_migration values (9999, '9999_future', now())")
        self.server.process.send_signal(signal.SIGTERM)
        self.server.process.wait(timeout=60)
        with self.assertRaisesRegex(RuntimeError, "9999_future.*start a newer build"):
            self.server.start()


if __name__ == "__main__":
    unittest.main()
