// A chart from a file of CSV and TSV. Limits, errors and thread safety as in chart_file.h.
#ifndef ROWPROOF_SERVICES_IMAGES_FORMATS_CSV_IMPORT_H_
#define ROWPROOF_SERVICES_IMAGES_FORMATS_CSV_IMPORT_H_

#include <string_view>

#include "absl/status/statusor.h"
#include "services/images/chart_file.h"

namespace rowproof::images {

// Lines, top row first, of cells A to H, or . and x (capital or small; one of the two sets in each
// file), with a comma, a semicolon or a tab between cells in every line, or with nothing between
// them in any. Cells may be quoted (RFC 4180). Lines end in LF or CRLF; a byte order mark and empty
// lines at the end are passed over. Outer lines and columns that hold only whole numbers or nothing
// (row and stitch numbers) are cut away and reported.
absl::StatusOr<ImportedChart> ImportCsv(std::string_view bytes, const ImportSettings& settings,
                                        const Stop& stop = {});

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_FORMATS_CSV_IMPORT_H_
