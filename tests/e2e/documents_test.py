"""Every command in the documents runs as written and prints what is quoted; no document is too long,
and no link is broken. documents.py explains how a document marks its commands."""

import os
import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest

import documents
import live_server

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
# The largest size in bytes, where one is set.
DOCUMENTS = {"README.md": 9 * 1024, "DEVELOPERS.md": 14 * 1024, "services/client/MANUAL.md": None,
             "proto/README.md": None, "deploy/OPERATING.md": None,
             "services/domain/GLOSSARY.md": None}
PATH = live_server.BUILD + os.pathsep + os.environ["PATH"]
EXAMPLE = TOP / "services" / "client" / "example"


class DocumentsTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()
        cls.token = cls.server.new_designer()[1]

    @classmethod
    def tearDownClass(cls):
        cls.server.stop()

    def setUp(self):
        self.folder = tempfile.mkdtemp(prefix="rowproof-documents-")
        for file in EXAMPLE.iterdir():
            shutil.copy(file, self.folder)
        token_file = os.path.join(self.folder, "designer.token")
        with open(token_file, "w", encoding="utf-8") as token:
            token.write(self.token + "\n")
        os.chmod(token_file, 0o600)

    def tearDown(self):
        shutil.rmtree(self.folder)

    def run_document(self, name):
        names = {}
        printed = ""
        for step in documents.steps_of((TOP / name).read_text(encoding="utf-8")):
            if isinstance(step, documents.Name):
                found = re.findall(step.pattern, printed)
                self.assertTrue(found, "%s: no %s in\n%s" % (name, step.word, printed))
                names[step.word] = found[-1]
                continue
            where = "%s:%d: %s" % (name, step.line, step.text)
            if not step.run:
                self.check_is_there(step.text, where)
                continue
            done = self.run_command(documents.replaced(step.text, names))
            printed = done.stdout + done.stderr
            self.assertEqual(step.exits, done.returncode, where + "\n" + printed)
            if step.prints is not None:
                expected = [documents.replaced(line, names) for line in step.prints]
                self.assertIsNone(documents.difference(expected, printed), where)

    def run_command(self, text):
        return subprocess.run(
            ["bash", "-o", "pipefail", "-c", text], cwd=self.folder, capture_output=True, text=True,
            timeout=120,
            env=dict(os.environ, PATH=PATH, ROWPROOF_SERVER=self.server.address,
                     ROWPROOF_BUILD=live_server.BUILD, ROWPROOF_SOURCE=str(TOP),
                     PYTHONDONTWRITEBYTECODE="1"))

    def check_is_there(self, text, where):
        program = next(word for word in text.split() if not re.match(r"[A-Z_]+=", word))
        self.assertTrue(program.startswith("build/") or os.access(TOP / program, os.X_OK) or
                        shutil.which(program, path=PATH), where)

    def test_no_document_is_longer_than_its_limit(self):
        for name, limit in DOCUMENTS.items():
            size = (TOP / name).stat().st_size
            if limit is not None:
                self.assertLessEqual(size, limit, name)

    def test_links_lead_to_files(self):
        for name in DOCUMENTS:
            text = (TOP / name).read_text(encoding="utf-8")
            for link in re.findall(r"\]\(([^)#]+)[^)]*\)", text):
                if not link.startswith("http"):
                    self.assertTrue((TOP / name).parent.joinpath(link).exists(), name + ": " + link)

    def test_files_that_are_named_are_there(self):
        for name in [*DOCUMENTS, *(str(path.relative_to(TOP)) for part in ("services", "storage")
                                   for path in (TOP / part).rglob("DECISIONS.md"))]:
            text = (TOP / name).read_text(encoding="utf-8")
            for file in re.findall(r"`([a-z]\w*(?:/[a-z][\w.]*)+\.(?:h|cc|py|md))`", text):
                self.assertTrue((TOP / file).exists() or (TOP / name).parent.joinpath(file).exists(),
                                name + ": " + file)

    def test_the_picture_is_what_its_command_makes(self):
        done = self.run_command("rowproof repair reed.csv --out mended.csv && "
                                "python3 before_and_after.py reed.csv mended.csv")
        picture = (EXAMPLE / "reed.svg").read_text(encoding="utf-8")
        self.assertTrue(done.stdout.endswith(picture), done.stderr)


def add_document(name):
    def test(self):
        self.run_document(name)
    setattr(DocumentsTest, "test_every_command_of_" + re.sub(r"\W", "_", name), test)


for document in DOCUMENTS:
    add_document(document)

if __name__ == "__main__":
    unittest.main()
