// A designer's own text as it was read, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_TEXT_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_TEXT_H_

#include <string>

#include "rowproof/v1/text.pb.h"
#include "services/client/tables/measures.h"

namespace rowproof::client {

std::string TextOf(const v1::TextRows& rows, const Style& style);
// The first findings; with details all of them, and the rows that do not agree (or all) with both
// texts.
std::string TextOf(const v1::TextComparison& comparison, const Style& style, bool all_rows);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_TEXT_H_
