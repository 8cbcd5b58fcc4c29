// Versions for the tests of releases. Patterns, yarns and people are invented.
#ifndef ROWPROOF_TESTS_DOMAIN_PATTERNS_SAMPLE_CONTENT_H_
#define ROWPROOF_TESTS_DOMAIN_PATTERNS_SAMPLE_CONTENT_H_

#include <random>
#include <string>
#include <vector>

#include "services/domain/patterns/version_content.h"

namespace rowproof::patterns {

// Lines from the top, as a chart is looked at; 'x' is a set cell, stitch 1 at the right.
chart::Grid GridOf(const std::vector<std::string>& lines);

// A flat, two-face, cut spike chart in the working convention of one size.
chart::Design WorkingChart(const std::vector<std::string>& lines);

// A small valid version with a band, two sizes and every kind of field.
VersionContent SmallVersion();

// A small valid version that needs format 2: a tube in three colours with a yarn's tex, a
// foundation and a border in C, and a calibration.
VersionContent ColourfulVersion();

// A small valid version that needs format 3: ColourfulVersion with a text of the designer's own
// that says its terms itself.
VersionContent WordyVersion();

// ColourfulVersion with what its calibration was measured in, which needs format 4.
VersionContent ScopedVersion();

// ColourfulVersion with a style for its rows, which needs format 5.
VersionContent StyledVersion();

// A version with every field at random, optional ones there or not; its design is well formed, its
// materials is structurally right but not always in range.
VersionContent RandomVersion(std::mt19937_64& random);

chart::Grid RandomGrid(std::mt19937_64& random, int rows, int stitches);

// A number from `low` to `high`.
int Pick(std::mt19937_64& random, int low, int high);

}  // namespace rowproof::patterns

#endif  // ROWPROOF_TESTS_DOMAIN_PATTERNS_SAMPLE_CONTENT_H_
