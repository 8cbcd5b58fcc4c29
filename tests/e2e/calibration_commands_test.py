"""Kept calibrations by the command line, against a live server.

All people, yarns and measurements are invented.
"""

import json
import os
import subprocess
import tempfile
import unittest

import calibrations_test
import live_server


class CalibrationCommandsTest(calibrations_test.LiveCalibrations):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.folder = tempfile.TemporaryDirectory(prefix="rowproof-calibrations-")
        cls.chart = os.path.join(cls.folder.name, "good.csv")
        with open(cls.chart, "w") as file:
            file.write("A,A,A,A,A,A\nB,B,A,B,B,B\nA,A,A,A,A,A\nB,B,B,B,B,B\nA,A,A,A,A,A\n")

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()
        super().tearDownClass()

    def rowproof(self, *arguments, ends_with=0):
        environment = dict(os.environ, ROWPROOF_TOKEN=self.token,
                           ROWPROOF_SERVER=self.server.address, LC_ALL="C.UTF-8")
        done = subprocess.run([os.path.join(live_server.BUILD, "rowproof"), *arguments],
                              capture_output=True, text=True, env=environment)
        self.assertEqual(ends_with, done.returncode, done.stderr)
        if "--json" not in arguments:
            self.assertLessEqual(max(map(len, done.stdout.splitlines()), default=0), 100)
        return done.stdout if ends_with == 0 else done.stderr

    SWATCH = ["--gauge", "20x25/10cm", "--stitches", "sc=400", "--weight-class", "4", "--length"]
    GAUGE = ["--stitches-per-10cm", "14", "--rows-per-10cm", "16", "--weight-class", "4"]

    def test_the_whole_way_of_a_designer(self):
        made = json.loads(self.rowproof(
            "calibration", "new", "Oat, my hands (invented)", "--technique", "spike", "--facing",
            "two-face", "--ends", "cut", *self.SWATCH, "16.2m", "--swatch-note", "dry", "--json"))
        name = made["name"]
        for words in (name, "revisions/1", "spike, two-face, ends cut, weight class 4", "dry",
                      "unravelled-swatch", "16.2 m", "Assumed", "--calibration"):
            self.assertIn(words, self.rowproof("calibration", "show", name, "--details"))
        added = self.rowproof("calibration", "add", name, *self.SWATCH, "17m", "--note", "second")
        for words in (name + "/revisions/2", "from 2 measurements", "Note: second"):
            self.assertIn(words, added)
        self.assertIn("from 1 measurement in force", self.rowproof(
            "calibration", "show", name + "/revisions/1"))
        self.assertIn("from 1 measurement in force", self.rowproof(
            "calibration", "add", name, "--leave-out", "1"))
        listed = self.rowproof("calibration", "revisions", name)
        self.assertIn("second", listed)
        self.assertIn("Oat, my hands", self.rowproof("calibration", "list", "--technique",
                                                     "spike", "--weight-class", "4"))
        self.assertEqual("None.\n", self.rowproof("calibration", "list", "--technique", "overlay"))
        self.assertIn("Rye", self.rowproof("calibration", "rename", name, "Rye (invented)"))

        estimate = self.rowproof("estimate", self.chart, *self.GAUGE, "--calibration", name)
        self.assertIn("Calibration used: %s/revisions/3." % name, estimate)
        self.assertIn("another fabric", self.rowproof(
            "estimate", self.chart, *self.GAUGE, "--technique", "overlay", "--calibration", name,
            "--details"))
        converted = self.rowproof("convert", self.chart, *self.GAUGE, "--to-technique", "overlay",
                                  "--calibration", name + "/revisions/1")
        self.assertIn("yarn A", converted)
        pattern = json.loads(self.rowproof("pattern", "new", "Tile (invented)", "--json"))["name"]
        version = json.loads(self.rowproof("version", "submit", pattern, self.chart, *self.GAUGE,
                                           "--calibration", name, "--json"))
        self.assertEqual(name + "/revisions/3", version["estimates"][0]["calibration"])
        self.assertIn("Calibration used: %s/revisions/1." % name, self.rowproof(
            "version", "estimate", version["name"], "--calibration", name + "/revisions/1"))
        self.assertIn("deleted", self.rowproof("calibration", "delete", name))
        self.assertIn(name, self.rowproof("calibration", "show", name, ends_with=4))

    def test_a_file_of_several_measurements_is_kept(self):
        path = os.path.join(self.folder.name, "measured.json")
        measured = self.rowproof("calibrate", "--name", "x", *self.SWATCH, "16.2m",
                                 "--technique", "inset", "--json")
        self.assertEqual("TECHNIQUE_INSET", json.loads(measured)["scope"]["technique"])
        one = {"swatch": {"stitches": [{"stitch": "STITCH_KIND_SC", "count": 400}],
                          "gauge": {"stitchesPerDecimetre": 20, "rowsPerDecimetre": 25},
                          "yarn": {"weightClass": 4}, "lengthMm": 16200}, "note": "of the file"}
        with open(path, "w") as file:
            json.dump({"scope": {"technique": "TECHNIQUE_INSET", "weightClass": 4},
                       "measurements": [one, one]}, file)
        shown = self.rowproof("calibration", "new", "From a file", path, *self.SWATCH, "17m",
                              "--details")
        self.assertIn("from 3 measurements", shown)
        self.assertIn("of the file", shown)

    def test_what_is_missing_is_named_by_its_option(self):
        self.assertIn("--technique", self.rowproof(
            "calibration", "new", "Oat", *self.SWATCH, "16.2m", ends_with=3))
        self.assertIn("measurements", self.rowproof(
            "calibration", "new", "Oat", "--technique", "spike", "--weight-class", "4",
            ends_with=3))
        self.assertIn("--length", self.rowproof(
            "calibration", "new", "Oat", *self.SWATCH, "16.2", ends_with=3))
        for verb in ("new", "add", "list", "show", "revisions", "rename", "delete"):
            self.assertIn("Usage", self.rowproof("calibration", verb, "--help"))


if __name__ == "__main__":
    unittest.main()
