"""The nginx of deploy/nginx in front of a server: calls pass, and a client that resets requests without
end neither takes the server's memory nor keeps others from being served."""

import os
import pathlib
import re
import socket
import ssl
import subprocess
import threading
import time
import unittest

import live_server
import rapid_reset
from certificates import make_certificates

import grpc
from rowproof.v1 import chart_pb2, chart_service_pb2, chart_service_pb2_grpc

CONFIGURATION = pathlib.Path(__file__).resolve().parent.parent.parent / "deploy/nginx/rowproof.conf"
MAIN = """
user root;
daemon off;
pid FOLDER/nginx.pid;
worker_processes 1;
events { worker_connections 1024; }
http {
  access_log off;
  client_body_temp_path FOLDER/body; proxy_temp_path FOLDER/proxy; fastcgi_temp_path FOLDER/fastcgi;
  uwsgi_temp_path FOLDER/uwsgi; scgi_temp_path FOLDER/scgi;
  include FOLDER/rowproof.conf;
}
"""
SECONDS = 10
RESETS = 400_000


def free_port():
    with socket.create_server(("127.0.0.1", 0)) as free:
        return free.getsockname()[1]


def resident_mib(process):
    with open("/proc/%d/status" % process) as status:
        return int(re.search(r"VmRSS:\s+(\d+) kB", status.read())[1]) // 1024


def check(channel, stitches=3):
    request = chart_service_pb2.CheckChartRequest(design=chart_pb2.Design(
        chart=chart_pb2.Chart(row_count=1, stitch_count=stitches, cells=b"\0" * ((stitches + 7) // 8))))
    return chart_service_pb2_grpc.ChartServiceStub(channel).CheckChart(request, timeout=20)


class ProxyTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()
        folder = cls.server.folder
        make_certificates(folder)
        cls.port = free_port()
        text = CONFIGURATION.read_text(encoding="utf-8")
        for there, here in (("127.0.0.1:7420", cls.server.address),
                            ("listen 443 ", "listen 127.0.0.1:%d " % cls.port),
                            ("/etc/ssl/certs/rowproof.pem", os.path.join(folder, "server.pem")),
                            ("/etc/ssl/private/rowproof.key", os.path.join(folder, "server.key"))):
            assert text.count(there) == 1, there
            text = text.replace(there, here)
        pathlib.Path(folder, "rowproof.conf").write_text(text, encoding="utf-8")
        pathlib.Path(folder, "nginx.conf").write_text(
            MAIN.replace("FOLDER", folder).replace("user root;", "user root;" * (os.geteuid() == 0)),
            encoding="utf-8")
        command = ["nginx", "-p", folder, "-e", os.path.join(folder, "nginx.log"), "-c",
                   os.path.join(folder, "nginx.conf")]
        checked = subprocess.run([*command, "-t"], capture_output=True, text=True)
        assert checked.returncode == 0, checked.stderr
        cls.nginx = subprocess.Popen(command)
        with open(os.path.join(folder, "ca.pem"), "rb") as authority:
            cls.authority = authority.read()
        grpc.channel_ready_future(cls.channel()).result(timeout=20)

    @classmethod
    def tearDownClass(cls):
        cls.nginx.terminate()
        cls.nginx.wait(timeout=20)
        cls.server.stop()

    @classmethod
    def channel(cls):
        return grpc.secure_channel("localhost:%d" % cls.port,
                                   grpc.ssl_channel_credentials(cls.authority))

    def attack(self):
        """From another address than the other tests' calls, which have limits of their own."""
        context = ssl.create_default_context(cafile=os.path.join(self.server.folder, "ca.pem"))
        context.set_alpn_protocols(["h2"])

        def connect():
            plain = socket.create_connection(("127.0.0.1", self.port), timeout=5,
                                             source_address=("127.0.0.2", 0))
            return context.wrap_socket(plain, server_hostname="localhost")
        return rapid_reset.reset_requests(connect, RESETS)

    def test_calls_pass(self):
        with self.channel() as channel:
            self.assertTrue(check(channel).workable)
            # Its refusals, too, with what they say.
            with self.assertRaises(grpc.RpcError) as caught:
                check(channel, stitches=1_000_000)
            self.assertEqual(grpc.StatusCode.INVALID_ARGUMENT, caught.exception.code())
            self.assertIn("BadRequest", live_server.details_of(caught.exception))

    def test_a_large_request_passes(self):
        request = chart_service_pb2.CheckChartRequest(design=chart_pb2.Design(chart=chart_pb2.Chart(
            row_count=1, stitch_count=3, cells=b"\0" * (19 << 20))))
        with self.channel() as channel, self.assertRaises(grpc.RpcError) as caught:
            chart_service_pb2_grpc.ChartServiceStub(channel).CheckChart(request, timeout=60)
        self.assertEqual(grpc.StatusCode.INVALID_ARGUMENT, caught.exception.code())

    def test_requests_that_are_reset_cost_nobody_else(self):
        sent, largest, ending = [0], [0], threading.Event()

        def attack():
            while not ending.is_set():
                sent[0] += self.attack()
        attackers = [threading.Thread(target=attack) for _ in range(2)]
        begin = time.monotonic()
        for attacker in attackers:
            attacker.start()
        try:
            answered = 0
            with self.channel() as channel:
                while time.monotonic() - begin < SECONDS:
                    self.assertTrue(check(channel).workable)
                    answered += 1
                    ending.wait(0.02)  # a client within its limits, on the quickest machine too
                    largest[0] = max(largest[0], resident_mib(self.server.process.pid))
        finally:
            ending.set()
            for attacker in attackers:
                attacker.join()
        print("%d resets, %d calls answered beside them, server at most %d MiB" %
              (sent[0], answered, largest[0]))
        self.assertGreater(answered, SECONDS)
        self.assertLess(largest[0], 100)
        self.assertIsNone(self.server.process.poll())


if __name__ == "__main__":
    unittest.main()
