"""Certificates for tests. All names are invented."""

import os
import subprocess


def openssl(folder, *arguments):
    subprocess.run(["openssl", *arguments], cwd=folder, check=True, capture_output=True)


def make_certificates(folder):
    """An authority, and certificates of a server on localhost and of a client."""
    openssl(folder, "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj",
            "/CN=Invented Authority", "-keyout", "ca.key", "-out", "ca.pem")
    for name in ("server", "client"):
        with open(os.path.join(folder, "extensions"), "w") as extensions:
            extensions.write("subjectAltName=DNS:localhost,IP:127.0.0.1\n")
        openssl(folder, "req", "-newkey", "rsa:2048", "-nodes", "-subj", "/CN=localhost",
                "-keyout", name + ".key", "-out", name + ".csr")
        openssl(folder, "x509", "-req", "-in", name + ".csr", "-CA", "ca.pem", "-CAkey", "ca.key",
                "-CAcreateserial", "-days", "2", "-extfile", "extensions", "-out", name + ".pem")
