// Rows that were read, as short strings for tests.
#ifndef ROWPROOF_TESTS_DOMAIN_ROWS_READ_STITCHES_H_
#define ROWPROOF_TESTS_DOMAIN_ROWS_READ_STITCHES_H_

#include <string>
#include <string_view>
#include <vector>

#include "services/domain/rows/reading/reader.h"
#include "services/domain/rows/text_expansion.h"

namespace rowproof::rows {

// Stitch by stitch: '.' sc or a defined plain stitch, 'x' ssc or a defined drop, 'm' mdc, 'd' dc,
// 'h' hdc, 't' tr, 'q' dtr, 's' sl st, "<3/2>" ch 3 over two skipped stitches.
std::string Shown(const std::vector<WorkedRun>& runs);

// One row's body ("sc 3, ssc") read after "Row 2: ", expanded in one size over `below` stitches;
// what is wrong instead, where it is.
std::string ReadBody(std::string_view body, int below = 20, const ReaderSettings& settings = {},
                     int size = 0);

// The sentences of a text's findings.
std::vector<std::string> Faults(std::string_view text, const ReaderSettings& settings = {});

}  // namespace rowproof::rows

#endif  // ROWPROOF_TESTS_DOMAIN_ROWS_READ_STITCHES_H_
