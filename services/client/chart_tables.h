// What the chart service answers, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_CHART_TABLES_H_
#define ROWPROOF_SERVICES_CLIENT_CHART_TABLES_H_

#include <string>

#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/rows.pb.h"

namespace rowproof::client {

std::string TextOf(const v1::CheckResult& check);
// With the cells around the first edits drawn in signs.
std::string TextOf(const v1::RepairResult& repair);
std::string TextOf(const v1::WrittenRows& rows);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_CHART_TABLES_H_
