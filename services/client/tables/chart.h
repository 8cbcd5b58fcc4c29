// What the chart service answers, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CHART_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CHART_H_

#include <string>

#include "google/protobuf/repeated_ptr_field.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/rows.pb.h"

namespace rowproof::client {

std::string TextOf(const v1::CheckResult& check);
// With the cells around the first edits drawn in signs.
std::string TextOf(const v1::RepairResult& repair);
std::string TextOf(const v1::WrittenRows& rows);

// A table of cells to change, the first of them; empty where there are none. `more` says where all
// of them are.
std::string EditTable(const google::protobuf::RepeatedPtrField<v1::Edit>& edits, const char* more);
// "make row 3, stitch 2 A", "... plain", "... a drop".
std::string EditWords(const v1::Edit& edit);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CHART_H_
