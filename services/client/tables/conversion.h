// Conversions, repeats and imported files, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CONVERSION_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CONVERSION_H_

#include <string>

#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/chart_file.pb.h"
#include "rowproof/v1/conversion.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

std::string TextOf(const v1::ConvertedChart& converted, const Style& style);
std::string TextOf(const v1::Repeats& repeats);
// What was found in the file and what was cut off, without the size.
std::string TextOf(const v1::ImportedChart& imported);
// "Read 24 stitches x 20 rows from mat.png (grid lines found, sure)."
std::string ReadingLine(const v1::ImportedChart& imported, const std::string& file);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CONVERSION_H_
