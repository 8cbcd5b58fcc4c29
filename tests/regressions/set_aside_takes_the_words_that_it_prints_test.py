"""The client's help, and what it printed, called a yarn "yarn-a", but only "yarn-A" could be set aside."""

import os
import subprocess
import unittest

BUILD = os.environ["ROWPROOF_BUILD"]
SEAT = "patterns/p/testCalls/c/seats/s"
NOBODY_LISTENS = "127.0.0.1:1"


def set_aside(quantity):
    return subprocess.run(
        [os.path.join(BUILD, "rowproof"), "--server", NOBODY_LISTENS, "reconcile", "set-aside", SEAT,
         quantity, "--note", "not weighed"], capture_output=True, text=True)


class SetAsideTest(unittest.TestCase):
    def test_every_quantity_of_the_help_is_sent(self):
        for quantity in [*("yarn-" + letter for letter in "abcdefgh"), "yarn-border", "width",
                         "height", "time"]:
            done = set_aside(quantity)
            self.assertEqual(5, done.returncode, quantity + ": " + done.stderr)  # it tried to send

    def test_anything_else_is_refused_with_the_words_that_are_taken(self):
        for quantity in ("yarn", "yarn-i", "yarn-A", "width-a", "beauty"):
            done = set_aside(quantity)
            self.assertEqual(2, done.returncode, quantity)
            self.assertIn("yarn-a to yarn-h, yarn-border, width, height or time", done.stderr)


if __name__ == "__main__":
    unittest.main()
