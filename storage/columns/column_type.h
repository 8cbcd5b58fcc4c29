// SQL type, encoder and decoder of the values in columns. For the .cc files of this folder, which
// include <pqxx/pqxx> first.
//
// A table that many columns make up has one list of them, for the text of its statements
// (ColumnNames), their parameters (ColumnValues) and for reading (ColumnReader):
//   template <typename Archive>
//   void PieceColumns(Archive& a, StructOf<Piece> auto& piece) {
//     a.Column("width_mm", piece.width_mm);
//   }
// Column   its type follows from the value's (ColumnType); an optional may be null.
// Time     in a view a number, under another name.
// Joined   read only: the view has it from another table.
// List     arrays side by side, one element an entry; within, as above and:
// Present  whether the entry has a part; the part's columns hold defaults if it has none.
// Sparse   an optional whose whole array is empty if no entry has it.
#ifndef ROWPROOF_STORAGE_COLUMNS_COLUMN_TYPE_H_
#define ROWPROOF_STORAGE_COLUMNS_COLUMN_TYPE_H_

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include "services/domain/identifiers.h"
#include "storage/array_text.h"
#include "storage/stored_text.h"

namespace rowproof::storage {

// Of an enum, by its number.
template <typename T>
struct ColumnType {
  static_assert(std::is_enum_v<T>);
  static constexpr char kSql[] = "smallint";
  static std::string Encode(T value) { return NumberText(static_cast<int>(value)); }
  static void Add(ArrayText& array, T value) { array.Add(static_cast<int>(value)); }
  static T Decode(std::string_view text, const char* column) { return EnumOf<T>(text, column); }
};
template <>
struct ColumnType<int> {  // rows, stitches, numbers: from 0
  static constexpr char kSql[] = "integer";
  static std::string Encode(int value) { return NumberText(value); }
  static void Add(ArrayText& array, int value) { array.Add(value); }
  static int Decode(std::string_view text, const char* column) { return CountOf(text, column); }
};
template <>
struct ColumnType<double> {
  static constexpr char kSql[] = "double precision";
  static std::string Encode(double value) { return NumberText(value); }
  static void Add(ArrayText& array, double value) { array.Add(value); }
  static double Decode(std::string_view text, const char* column) { return RealOf(text, column); }
};
template <>
struct ColumnType<bool> {
  static constexpr char kSql[] = "boolean";
  static std::string Encode(bool value) { return value ? "t" : "f"; }
  static void Add(ArrayText& array, bool value) { array.Add(value); }
  static bool Decode(std::string_view text, const char* column) { return FlagOf(text, column); }
};
template <>
struct ColumnType<std::string> {
  static constexpr char kSql[] = "text";
  static std::string Encode(const std::string& value) { return value; }
  static void Add(ArrayText& array, const std::string& value) { array.Add(value); }
  static std::string Decode(std::string_view text, const char* column) {
    return TextOf(text, column);
  }
};
template <>
struct ColumnType<Sha256> {
  static constexpr char kSql[] = "bytea";
  static std::string Encode(const Sha256& value) { return "\\x" + HexOf(value); }
};
template <typename T>
struct ColumnType<std::optional<T>> : ColumnType<T> {
  static std::optional<std::string> Encode(const std::optional<T>& value) {
    if (!value.has_value()) return std::nullopt;
    return ColumnType<T>::Encode(*value);
  }
  static void Add(ArrayText& array, const std::optional<T>& value) {
    if (value.has_value()) {
      ColumnType<T>::Add(array, *value);
    } else {
      array.Add(std::optional<int>());
    }
  }
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_COLUMNS_COLUMN_TYPE_H_
