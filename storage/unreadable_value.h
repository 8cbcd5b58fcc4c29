// What the database holds is input: a value that this build does not know is refused, never
// trusted.
#ifndef ROWPROOF_STORAGE_UNREADABLE_VALUE_H_
#define ROWPROOF_STORAGE_UNREADABLE_VALUE_H_

#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace rowproof::storage {

// Thrown if a stored value cannot be read; ends in Database as DATA_LOSS. It says where the value
// is, never what it is.
class UnreadableValue : public std::exception {
 public:
  explicit UnreadableValue(std::string column) : column_(std::move(column)) {}

  // Of a record that is missing, or unreadable as a whole.
  UnreadableValue(std::string table, std::string column, std::string resource)
      : table_(std::move(table)), column_(std::move(column)), resource_(std::move(resource)) {}

  // What the value is part of; the innermost record's name is kept.
  void NameRecord(const char* table, std::string resource) {
    if (!table_.empty()) return;
    table_ = table;
    resource_ = std::move(resource);
  }
  // Its place within a column's structure.
  void NameColumn(std::string_view column) {
    field_ = field_.empty() ? column_ : column_ + "." + field_;
    column_ = column;
  }

  const std::string& table() const { return table_; }
  const std::string& column() const { return column_; }
  const std::string& field() const { return field_; }  // "" for the whole column
  const std::string& resource() const { return resource_; }
  const char* what() const noexcept override { return "a stored value cannot be read"; }

 private:
  std::string table_;
  std::string column_;
  std::string field_;
  std::string resource_;
};

// Runs `read`, which reads one record of `table`. What it refuses is named by the table and by
// `resource()`, the name of the resource that the record belongs to.
template <typename Resource, typename Read>
auto ReadRecord(const char* table, const Resource& resource, const Read& read) {
  try {
    return read();
  } catch (UnreadableValue& value) {
    value.NameRecord(table, resource());
    throw;
  }
}

// Runs `read`, which reads the structure inside of a column.
template <typename Read>
auto ReadColumn(std::string_view column, const Read& read) {
  try {
    return read();
  } catch (UnreadableValue& value) {
    value.NameColumn(column);
    throw;
  }
}

// A record that another record names. If it is missing, the naming one cannot be read.
template <typename Record>
Record NamedRecord(std::optional<Record> record, const char* table, const std::string& resource) {
  if (!record.has_value()) throw UnreadableValue(table, "", resource);
  return *std::move(record);
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_UNREADABLE_VALUE_H_
