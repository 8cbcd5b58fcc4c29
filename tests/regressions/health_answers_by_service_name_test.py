"""Health knew the empty name only, and reflection listed services whose descriptors it did not have."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402

import grpc  # noqa: E402
from google.protobuf import descriptor_pb2  # noqa: E402

SERVICES = ["rowproof.v1.%sService" % name for name in (
    "Account", "Calibration", "Chart", "Pattern", "TestCall", "Report", "Reconciliation", "Release")]
SERVING = b"\x08\x01"  # HealthCheckResponse{status: SERVING}


def text(field, value):
    """A string field of a message, as it travels; names are short here."""
    return bytes([field << 3 | 2, len(value)]) + value.encode()


def fields(message):
    """The length-delimited fields of a message, as (number, bytes)."""
    def varint():
        nonlocal at
        value = shift = 0
        while True:
            byte = message[at]
            at += 1
            value |= (byte & 127) << shift
            shift += 7
            if byte < 128:
                return value
    at = 0
    while at < len(message):
        tag = varint()
        value = varint()
        if tag & 7 == 2:
            yield tag >> 3, message[at:at + value]
            at += value


class HealthTest(unittest.TestCase):
    """As a client does that knows nothing of us but the published names and numbers."""

    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()
        cls.channel = cls.server.channel()

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    def health(self, service):
        return self.channel.unary_unary(
            "/grpc.health.v1.Health/Check", request_serializer=bytes,
            response_deserializer=bytes)(text(1, service), timeout=10)

    def reflect(self, request):
        """The one field of a ServerReflectionResponse that answers."""
        answer = next(self.channel.stream_stream(
            "/grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo",
            request_serializer=bytes, response_deserializer=bytes)(iter([request]), timeout=10))
        return {number: value for number, value in fields(answer) if number in (4, 6, 7)}

    def test_every_service_is_serving_by_its_name(self):
        for name in ["", "grpc.health.v1.Health"] + SERVICES:
            self.assertEqual(SERVING, self.health(name), name)
        with self.assertRaises(grpc.RpcError) as caught:
            self.health("rowproof.v1.NoSuchService")
        self.assertEqual(grpc.StatusCode.NOT_FOUND, caught.exception.code())

    def test_every_listed_service_has_its_descriptor(self):
        listed = [dict(fields(service))[1].decode()
                  for _, service in fields(self.reflect(text(7, ""))[6])]
        self.assertLessEqual({"grpc.health.v1.Health", *SERVICES}, set(listed))
        for name in listed:
            answer = self.reflect(text(4, name))  # file_containing_symbol
            self.assertIn(4, answer, "%s: %s" % (name, answer))
            declared = []
            for _, file in fields(answer[4]):
                read = descriptor_pb2.FileDescriptorProto.FromString(file)
                declared += [read.package + "." + service.name for service in read.service]
            self.assertIn(name, declared)


if __name__ == "__main__":
    unittest.main()
