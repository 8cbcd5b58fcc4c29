"""A rowproofd of its own for end-to-end tests: private PostgreSQL, free port, a designer's token.

Environment: ROWPROOF_BUILD names the build folder (programs, and python/ with generated stubs).
"""

import atexit
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import uuid

BUILD = os.environ["ROWPROOF_BUILD"]
sys.path.insert(0, os.path.join(BUILD, "python"))

import google  # noqa: E402

# Debian's google package is closed; ours holds google.rpc.
google.__path__.append(os.path.join(BUILD, "python", "google"))

import grpc  # noqa: E402
from google.rpc import error_details_pb2, status_pb2  # noqa: E402
from rowproof.v1 import yarn_pb2  # noqa: E402


class Server:
    """Started with start(), stopped with stop(); kill() is SIGKILL."""

    def __init__(self, *options):
        self.folder = tempfile.mkdtemp(prefix="rowproof-e2e-")
        os.chmod(self.folder, 0o755)  # user postgres passes through it
        self.var = os.path.join(self.folder, "var")
        self.options = list(options)
        self.prefix = []  # of the command: a program that becomes the server
        self.process = None
        atexit.register(self._leave_nothing)
        self.log = open(os.path.join(self.folder, "rowproofd.log"), "ab")

    def start(self, listen="127.0.0.1:0"):
        address_file = os.path.join(self.var, "address")
        if os.path.exists(address_file):
            os.remove(address_file)
        command = [*self.prefix, os.path.join(BUILD, "rowproofd"), "serve", "--var", self.var,
                   "--listen", listen]
        self.process = subprocess.Popen(command + self.options, stderr=self.log, env=environment())
        deadline = time.monotonic() + 60
        while time.monotonic() < deadline:
            if self.process.poll() is not None:
                raise RuntimeError("rowproofd ended:\n" + self.log_text())
            address = _read(address_file).strip()
            if address:
                self.address = address
                return self
            time.sleep(0.05)
        raise RuntimeError("rowproofd did not start:\n" + self.log_text())

    def channel(self, token=None):
        options = [("grpc.max_receive_message_length", 64 << 20)]
        channel = grpc.insecure_channel(self.address, options=options)
        return channel if token is None else grpc.intercept_channel(channel, _Bearer(token))

    def admin(self, *command):
        """What an operator's command prints."""
        return subprocess.run(
            [os.path.join(BUILD, "rowproofd"), "admin", *command, "--var", self.var],
            check=True, capture_output=True, text=True, env=environment()).stdout

    def new_designer(self, name="Ilse Invented"):
        made = self.admin("create-designer", "--name", name).split()
        return made[0], made[1]

    def psql(self, statement):
        return subprocess.run(
            ["psql", "-X", "-A", "-t", "-h", os.path.join(self.var, "postgres", "s"), "-U",
             "rowproof", "-d", "rowproof", "-v", "ON_ERROR_STOP=1", "-c", statement],
            check=True, capture_output=True, text=True).stdout.strip()

    def log_text(self):
        with open(os.path.join(self.folder, "rowproofd.log"), errors="replace") as log:
            return log.read()

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def postmaster(self):
        with open(os.path.join(self.var, "postgres", "data", "postmaster.pid")) as pid:
            return int(pid.readline())

    def _leave_nothing(self):
        """What a test that failed, or that never started its server, leaves."""
        if not os.path.exists(self.folder):
            return
        if self.process is not None and self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        data = os.path.join(self.var, "postgres", "data")
        pid = _read(os.path.join(data, "postmaster.pid")).split("\n")[0]
        if pid and data.encode() in _read("/proc/%s/cmdline" % pid).encode():
            os.kill(int(pid), signal.SIGQUIT)
        shutil.rmtree(self.folder, ignore_errors=True)

    def stop(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            self.process.wait(timeout=60)
        self.log.close()
        shutil.rmtree(self.folder, ignore_errors=True)
        return self.process.returncode


def _read(path):
    try:
        with open(path) as file:
            return file.read()
    except FileNotFoundError:
        return ""


def environment():
    """A sanitized server that left root cannot add its counts to a file of root's."""
    environment = dict(os.environ)
    if "LLVM_PROFILE_FILE" in environment:
        environment["LLVM_PROFILE_FILE"] = environment["LLVM_PROFILE_FILE"].replace(
            "%m", "server-%p")
    return environment


class _Bearer(grpc.UnaryUnaryClientInterceptor):
    def __init__(self, token):
        self.token = token

    def intercept_unary_unary(self, continuation, details, request):
        metadata = list(details.metadata or []) + [("authorization", "Bearer " + self.token)]
        return continuation(_Details(details, metadata), request)


class _Details(grpc.ClientCallDetails):
    def __init__(self, details, metadata):
        self.method = details.method
        self.timeout = details.timeout
        self.metadata = metadata
        self.credentials = details.credentials
        self.wait_for_ready = details.wait_for_ready
        self.compression = details.compression


def new_editor(server, designer, pattern, name="Edda Invented"):
    """The resource and the token of a new editor; `designer` is the designer's PatternService."""
    from rowproof.v1 import pattern_service_pb2 as patterns
    from rowproof.v1 import pattern_service_pb2_grpc
    invited = designer.CreateEditor(patterns.CreateEditorRequest(parent=pattern))
    nobody = pattern_service_pb2_grpc.PatternServiceStub(server.channel())
    accepted = nobody.AcceptEditorInvitation(patterns.AcceptEditorInvitationRequest(
        invitation=invited.invitation, display_name=name))
    return accepted.editor, accepted.secret


def request_id():
    return str(uuid.uuid4())


def role(letter, yarn):
    """The yarn of colour A to H, or of the border, as materials has it."""
    return yarn_pb2.ColourYarn(role=yarn_pb2.YarnRole.Value("YARN_ROLE_" + letter.upper()),
                               yarn=yarn)


def word(role_number):
    """A to H, or border."""
    name = yarn_pb2.YarnRole.Name(role_number)[len("YARN_ROLE_"):]
    return name if len(name) == 1 else name.lower()


def details_of(error):
    """The google.rpc details of an RpcError, by message name."""
    for key, value in error.trailing_metadata():
        if key == "grpc-status-details-bin":
            status = status_pb2.Status.FromString(value)
            found = {}
            for detail in status.details:
                name = detail.type_url.rsplit("/", 1)[1]
                kind = getattr(error_details_pb2, name.rsplit(".", 1)[1])
                found[kind.__name__] = kind.FromString(detail.value)
            return found
    return {}
