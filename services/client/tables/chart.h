// What the chart service answers, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CHART_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CHART_H_

#include <string>

#include "google/protobuf/repeated_ptr_field.h"
#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/repair.pb.h"
#include "rowproof/v1/rows.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

// Findings one by one; more than 40 by their kind, unless details are wanted.
std::string TextOf(const v1::CheckResult& check, const Style& style);
// With details, the cells around the first edits are drawn in signs, and other ways out are listed.
std::string TextOf(const v1::RepairResult& repair, const Style& style);
std::string TextOf(const v1::WrittenRows& rows);

// A table of cells to change, the first `most` of them; empty if there are none.
std::string EditTable(const google::protobuf::RepeatedPtrField<v1::Edit>& edits, int64_t all,
                      int most);
// "make row 3, stitch 2 A", "... plain", "... a drop".
std::string EditWords(const v1::Edit& edit);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CHART_H_
