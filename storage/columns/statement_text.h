// The text of a statement whose parameters have names.
#ifndef ROWPROOF_STORAGE_COLUMNS_STATEMENT_TEXT_H_
#define ROWPROOF_STORAGE_COLUMNS_STATEMENT_TEXT_H_

#include <string>
#include <string_view>
#include <vector>

#include "storage/columns/column_writers.h"

namespace rowproof::storage {

// `text` with "{parameter}" as PostgreSQL's number of that parameter: "$1" for the first of
// `parameters`. A name that is not among them is a bug.
std::string NumberParameters(std::string_view text,
                             const std::vector<ColumnNames::Named>& parameters);

// "a, b, c": the columns' names.
std::string NamesOf(const std::vector<ColumnNames::Named>& columns);
// "{a}, from_micros({b}), {c}": the parameters as the columns take them.
std::string ValuesOf(const std::vector<ColumnNames::Named>& columns);
// "unnest({a}::text[], {b}::integer[]) as u (a, b)": arrays side by side as records.
std::string UnnestOf(const std::vector<ColumnNames::Named>& columns);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_COLUMNS_STATEMENT_TEXT_H_
