// An invented pattern by an invented designer, as the tests of drawing use it.
#ifndef ROWPROOF_TESTS_DRAWING_SAMPLE_PATTERN_H_
#define ROWPROOF_TESTS_DRAWING_SAMPLE_PATTERN_H_

#include "services/domain/chart/design.h"
#include "services/domain/sheets/errata_sheet.h"
#include "services/drawing/sheets/pattern_sheet.h"

namespace rowproof::drawing {

// A workable spike chart in the given convention, without bands.
chart::Design SampleDesign(int rows, int stitches, chart::Convention convention);

// The same with a band of 8 stitches and one of 4 rows, in two sizes.
chart::Design BandedDesign(chart::Convention convention);

// The letter F in colour B on colour A, 9 rows of 7 stitches; it need not be workable.
chart::Design LetterF();
// The letter F in colour B on colour A so that it can be worked in every technique: it begins and
// ends in rows of B, and both edges show their rows. 13 rows of 9 stitches.
chart::Design WorkableF();
// A picture of eight colours whose rows are A to H twice over, with cells of the next row's colour.
chart::Design EightColours();

// A complete sheet whose chart is `design` (not owned), with `rows` written rows.
PatternSheet SampleSheet(const chart::Design& design, int rows);

sheets::ErrataSheet SampleErrata(int entries);

}  // namespace rowproof::drawing

#endif  // ROWPROOF_TESTS_DRAWING_SAMPLE_PATTERN_H_
