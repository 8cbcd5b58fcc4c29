"""TLS, client certificates, reflection, limits and the refusals of the server itself."""

import os
import subprocess
import unittest

import live_server

import grpc
from rowproof.v1 import chart_pb2, chart_service_pb2, chart_service_pb2_grpc


def openssl(folder, *arguments):
    subprocess.run(["openssl", *arguments], cwd=folder, check=True, capture_output=True)


def make_certificates(folder):
    """An authority, and certificates of a server on localhost and of a client. Invented names."""
    openssl(folder, "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj",
            "/CN=Invented Authority", "-keyout", "ca.key", "-out", "ca.pem")
    for name in ("server", "client"):
        with open(os.path.join(folder, "extensions"), "w") as extensions:
            extensions.write("subjectAltName=DNS:localhost,IP:127.0.0.1\n")
        openssl(folder, "req", "-newkey", "rsa:2048", "-nodes", "-subj", "/CN=localhost",
                "-keyout", name + ".key", "-out", name + ".csr")
        openssl(folder, "x509", "-req", "-in", name + ".csr", "-CA", "ca.pem", "-CAkey", "ca.key",
                "-CAcreateserial", "-days", "2", "-extfile", "extensions", "-out", name + ".pem")


def read(folder, name):
    with open(os.path.join(folder, name), "rb") as file:
        return file.read()


def check(channel):
    request = chart_service_pb2.CheckChartRequest(design=chart_pb2.Design(
        chart=chart_pb2.Chart(row_count=1, stitch_count=3, cells=b"\0")))
    return chart_service_pb2_grpc.ChartServiceStub(channel).CheckChart(request, timeout=10)


class ServerTest(unittest.TestCase):
    def test_tls_and_client_certificates(self):
        server = live_server.Server()
        folder = server.folder
        make_certificates(folder)
        server.options = ["--tls-certificate", os.path.join(folder, "server.pem"), "--tls-key",
                          os.path.join(folder, "server.key"), "--client-certificates",
                          os.path.join(folder, "ca.pem")]
        server.start(listen="localhost:0")
        try:
            with_certificate = grpc.ssl_channel_credentials(
                read(folder, "ca.pem"), read(folder, "client.key"), read(folder, "client.pem"))
            self.assertTrue(check(grpc.secure_channel(server.address, with_certificate)).workable)
            without = grpc.ssl_channel_credentials(read(folder, "ca.pem"))
            for channel in (grpc.secure_channel(server.address, without),
                            grpc.insecure_channel(server.address)):
                with self.assertRaises(grpc.RpcError) as caught:
                    check(channel)
                self.assertEqual(grpc.StatusCode.UNAVAILABLE, caught.exception.code())
        finally:
            server.stop()

    def test_reflection_names_every_service(self):
        server = live_server.Server().start()
        try:
            reflect = server.channel().stream_stream(
                "/grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo",
                request_serializer=bytes, response_deserializer=bytes)
            # ServerReflectionRequest.list_services is field 7 (the published reflection.proto).
            answer = next(reflect(iter([b"\x3a\x00"]), timeout=10))
            for name in ("Account", "Chart", "Pattern", "TestCall", "Report", "Reconciliation",
                         "Release"):
                self.assertIn(b"rowproof.v1." + name.encode() + b"Service", answer)
            self.assertIn(b"grpc.health.v1.Health", answer)
        finally:
            self.assertEqual(0, server.stop())

    def test_wrong_configuration_is_refused_in_one_line(self):
        program = os.path.join(live_server.BUILD, "rowproofd")
        for options, words in (
                (["--listen", "0.0.0.0:7420"], "--listen"),
                (["--tls-key", "/nowhere"], "--tls-certificate"),
                (["--pool", "0"], "--pool"),
                (["--postgres-programs", "/nowhere"], "install postgresql-15"),
                (["--database", "host=/nowhere dbname=x"], "The database cannot be reached")):
            folder = live_server.Server()
            done = subprocess.run([program, "serve", "--var", folder.var, *options],
                                  capture_output=True, text=True)
            folder.log.close()
            self.assertEqual(3, done.returncode, done.stderr)
            self.assertIn(words, done.stderr)
            self.assertEqual(1, len(done.stderr.strip().splitlines()), done.stderr)

    def test_two_servers_do_not_share_a_port(self):
        server = live_server.Server().start()
        other = live_server.Server()
        try:
            with self.assertRaisesRegex(RuntimeError, "a free address"):
                other.start(listen=server.address)
        finally:
            server.stop()
            other.stop()


if __name__ == "__main__":
    unittest.main()
