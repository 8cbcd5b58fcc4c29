"""Before a migration the private database is dumped; without a dump nothing is migrated."""

import glob
import os
import shutil
import subprocess
import unittest

import live_server

MIGRATIONS = os.path.join(os.path.dirname(__file__), "..", "..", "storage", "migrations")
POSTGRES = "/usr/lib/postgresql/15/bin"


class BackupTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server()
        self.older = os.path.join(self.server.folder, "migrations")
        os.mkdir(self.older)
        os.chmod(self.older, 0o755)
        self.names = sorted(os.path.basename(path) for path in glob.glob(MIGRATIONS + "/*.sql"))

    def tearDown(self):
        self.server.stop()

    def start_with(self, count):
        for name in self.names[:count]:
            shutil.copy(os.path.join(MIGRATIONS, name), self.older)
            os.chmod(os.path.join(self.older, name), 0o644)
        self.server.options = ["--migrations", self.older]
        self.server.start()

    def end(self):
        self.server.process.terminate()
        self.server.process.wait(timeout=60)

    def dumps(self):
        return sorted(glob.glob(os.path.join(self.server.var, "backups", "*")))

    def test_an_older_database_is_dumped_before_it_is_migrated(self):
        self.start_with(3)
        self.assertEqual([], self.dumps())  # a new database holds nothing to keep
        self.server.psql("insert into account values ('ada', 1, now(), null);"
                         "insert into pattern values ('shawl', 'ada', 'Invented', 0, 1, now())")
        self.end()
        self.start_with(len(self.names))
        dumps = self.dumps()
        self.assertEqual(1, len(dumps), dumps)
        self.assertRegex(os.path.basename(dumps[0]), r"^before-migration-0004-\d{8}T\d{6}Z\.dump$")
        self.assertEqual(0o700, os.stat(os.path.dirname(dumps[0])).st_mode & 0o777)
        self.assertEqual("shawl", self.restored(dumps[0], "select pattern_id from pattern"))
        self.assertEqual("3", self.restored(dumps[0], "select max(number) from schema_migration"))
        self.end()
        self.start_with(len(self.names))
        self.assertEqual(dumps, self.dumps())  # nothing to migrate, nothing to dump
        self.end()

    def test_without_a_dump_nothing_is_migrated(self):
        self.start_with(3)
        self.end()
        programs = os.path.join(self.server.folder, "programs")
        os.mkdir(programs)
        os.chmod(programs, 0o755)
        for name in ("initdb", "postgres", "pg_isready", "createdb", "pg_restore"):
            os.symlink(os.path.join(POSTGRES, name), os.path.join(programs, name))
        for name in self.names[3:]:
            shutil.copy(os.path.join(MIGRATIONS, name), self.older)
            os.chmod(os.path.join(self.older, name), 0o644)
        self.server.options += ["--postgres-programs", programs]
        with self.assertRaisesRegex(RuntimeError, "the database is not migrated, because"):
            self.server.start()
        self.assertEqual(1, self.server.log_text().count("migrations applied="))
        self.server.options = ["--migrations", os.path.abspath(self.older)]
        self.start_with(len(self.names))
        self.end()

    def restored(self, dump, query):
        """The query's answer from a database that the dump was restored into."""
        at = ["-h", os.path.join(self.server.var, "postgres", "s"), "-U", "rowproof"]
        self.server.psql("drop database if exists restored")
        self.server.psql("create database restored")
        subprocess.run([POSTGRES + "/pg_restore", *at, "-d", "restored", dump], check=True,
                       capture_output=True)
        return subprocess.run(["psql", "-X", "-A", "-t", *at, "-d", "restored", "-c", query],
                              check=True, capture_output=True, text=True).stdout.strip()


if __name__ == "__main__":
    unittest.main()
