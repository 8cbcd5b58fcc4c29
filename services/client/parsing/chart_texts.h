// Parts of a chart as people type them. Pure. Everything throws Failure (usage) that names the
// option, the text and what is accepted, for a text of another form.
#ifndef ROWPROOF_SERVICES_CLIENT_PARSING_CHART_TEXTS_H_
#define ROWPROOF_SERVICES_CLIENT_PARSING_CHART_TEXTS_H_

#include <string>
#include <string_view>
#include <vector>

#include "google/protobuf/repeated_ptr_field.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_file.pb.h"
#include "rowproof/v1/repair.pb.h"
#include "services/client/failure.h"

namespace rowproof::client {

// Digits alone.
bool ReadCount(std::string_view text, int* value);

// "ABAC", "AB*20 C": letters from the bottom row, a group repeated by *N; nothing for no text.
std::vector<v1::Colour> RowColoursOf(const std::string& option, std::string_view text);
// "C=#2f6f4f".
v1::ColourMeaning MeaningOf(const std::string& option, const std::string& text);
// "12/1", "12x10/1", "8": pixels from line to line, and the line's width (0).
v1::DeclaredGrid GridOf(const std::string& option, const std::string& text);
// "12x15": cells of that many pixels side by side, without lines between them.
v1::DeclaredGrid CellOf(const std::string& option, const std::string& text);
// "40,0,40,25": left, top, right, bottom.
v1::Margins CropOf(const std::string& option, const std::string& text);
// "5-8:1-10", "5:3", "all:1": rows, then stitches.
v1::CellArea AreaOf(const std::string& option, const std::string& text);
// "A=#f2e6cf", from A on without a gap, in any order: as the API lists them.
google::protobuf::RepeatedPtrField<std::string> ShadesOf(const std::string& option,
                                                         const std::vector<std::string>& texts);

// By the ending of a file's name: png, pbm, pgm, ppm, csv or tsv.
v1::ChartFileFormat FileFormatOf(const std::string& option, const std::string& path, bool plain);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_PARSING_CHART_TEXTS_H_
