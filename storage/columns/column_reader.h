// What a list of columns (column_type.h) is read by. For the .cc files of this folder, which
// include <pqxx/pqxx> first.
#ifndef ROWPROOF_STORAGE_COLUMNS_COLUMN_READER_H_
#define ROWPROOF_STORAGE_COLUMNS_COLUMN_READER_H_

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "storage/columns/column_type.h"
#include "storage/stored_field.h"

namespace rowproof::storage {

// Reads a row of the view by the names of its columns.
class ColumnReader {
 public:
  explicit ColumnReader(const pqxx::row& row) : row_(row) {}

  template <typename T>
  void Column(const char* name, T& value) {
    value = ColumnType<T>::Decode(RawIn(row_[name], name), name);
  }
  template <typename T>
  void Column(const char* name, std::optional<T>& value) {
    const pqxx::field field = row_[name];
    value.reset();
    if (!field.is_null()) value = ColumnType<T>::Decode(RawIn(field, name), name);
  }
  void Time(const char* name, const char* in_view, Moment& moment) {
    moment = MomentIn(row_[in_view], name);
  }
  template <typename T>
  void Joined(const char* name, T& value) {
    Column(name, value);
  }
  template <typename T, typename Fields>
  void List(std::vector<T>& items, const Fields& fields) {
    Arrays arrays(row_);
    T none{};
    fields(arrays, none);  // takes the arrays apart
    const size_t size = arrays.Start();
    items.clear();
    for (size_t i = 0; i < size; ++i) {
      arrays.Next(i);
      fields(arrays, items.emplace_back());
    }
  }

 private:
  class Arrays {
   public:
    explicit Arrays(const pqxx::row& row) : row_(row) {}
    template <typename T>
    void Column(const char* name, T& value) {
      if (!started_) return Take(name, false);
      const auto& element = Element();
      if (!element.has_value()) throw UnreadableValue(name);
      value = ColumnType<T>::Decode(*element, name);
    }
    template <typename T>
    void Column(const char* name, std::optional<T>& value) {
      if (!started_) return Take(name, false);
      ReadOptional(name, value);
    }
    template <typename T>
    void Joined(const char* name, T& value) {
      Column(name, value);
    }
    template <typename T, typename Fields>
    void Present(const char* name, std::optional<T>& part, const Fields& fields) {
      bool has_part = false;
      Column(name, has_part);
      T read{};
      fields(read);
      part = has_part ? std::optional<T>(std::move(read)) : std::nullopt;
    }
    template <typename T>
    void Sparse(const char* name, std::optional<T>& value) {
      if (!started_) return Take(name, true);
      if (arrays_[column_].elements.empty()) {
        ++column_;
        return;
      }
      ReadOptional(name, value);
    }
    // How many entries there are: as many elements in each array.
    size_t Start() {
      started_ = true;
      const size_t size = arrays_.empty() ? 0 : arrays_.front().elements.size();
      for (const Array& array : arrays_) {
        const bool left_out = array.is_sparse && array.elements.empty();
        if (array.elements.size() != size && !left_out) throw UnreadableValue(array.name);
      }
      return size;
    }
    void Next(size_t entry) {
      entry_ = entry;
      column_ = 0;
    }

   private:
    struct Array {
      const char* name;
      bool is_sparse;
      std::vector<std::optional<std::string>> elements;
    };
    void Take(const char* name, bool is_sparse) {
      arrays_.push_back({name, is_sparse, ElementsIn(row_[name])});
    }
    const std::optional<std::string>& Element() { return arrays_[column_++].elements[entry_]; }
    template <typename T>
    void ReadOptional(const char* name, std::optional<T>& value) {
      const auto& element = Element();
      value.reset();
      if (element.has_value()) value = ColumnType<T>::Decode(*element, name);
    }

    const pqxx::row& row_;
    std::vector<Array> arrays_;
    size_t entry_ = 0;
    size_t column_ = 0;
    bool started_ = false;
  };

  const pqxx::row& row_;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_COLUMNS_COLUMN_READER_H_
