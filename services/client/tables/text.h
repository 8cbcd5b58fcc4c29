// A designer's own text as it was read, for people. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_TEXT_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_TEXT_H_

#include <string>

#include "rowproof/v1/text.pb.h"

namespace rowproof::client {

std::string TextOf(const v1::TextRows& rows);
// A line a row with both texts: rows that do not agree, or all. The findings alone where the answer
// has no rows.
std::string TextOf(const v1::TextComparison& comparison, bool all_rows);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_TEXT_H_
