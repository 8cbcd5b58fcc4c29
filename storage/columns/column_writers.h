// What a list of columns (column_type.h) is written by: the names and the values of parameters.
#ifndef ROWPROOF_STORAGE_COLUMNS_COLUMN_WRITERS_H_
#define ROWPROOF_STORAGE_COLUMNS_COLUMN_WRITERS_H_

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "storage/columns/column_type.h"

namespace rowproof::storage {

// The names of a statement's parameters, in their order, and its text.
class ColumnNames {
 public:
  struct Named {
    std::string name;
    std::string parameter;  // its name among a statement's parameters
    std::string type;
    bool is_time = false;
  };

  // `prefix` distinguishes this list's parameters from those of another.
  explicit ColumnNames(std::string prefix = "") : prefix_(std::move(prefix)) {}

  template <typename T>
  void Column(const char* name, const T&) {
    Add(name, ColumnType<T>::kSql);
  }
  void Time(const char* name, const char*, const Moment&) {
    named_.push_back({name, prefix_ + name, "bigint", true});
  }
  template <typename T>
  void Joined(const char*, const T&) {}
  template <typename T, typename Fields>
  void List(const std::vector<T>&, const Fields& fields) {
    suffix_ = "[]";
    const T none{};
    fields(*this, none);
    suffix_.clear();
  }
  template <typename T, typename Fields>
  void Present(const char* name, const std::optional<T>&, const Fields& fields) {
    Add(name, ColumnType<bool>::kSql);
    const T none{};
    fields(none);
  }
  template <typename T>
  void Sparse(const char* name, const std::optional<T>&) {
    Add(name, ColumnType<T>::kSql);
  }

  const std::vector<Named>& named() const { return named_; }

 private:
  void Add(const char* name, const char* type) {
    named_.push_back({name, prefix_ + name, type + suffix_});
  }

  const std::string prefix_;
  std::string suffix_;
  std::vector<Named> named_;
};

// The parameters, in the same order.
class ColumnValues {
 public:
  template <typename T>
  void Column(const char*, const T& value) {
    values_.emplace_back(ColumnType<T>::Encode(value));
  }
  void Time(const char*, const char*, const Moment& moment) {
    values_.emplace_back(NumberText(Micros(moment)));
  }
  template <typename T>
  void Joined(const char*, const T&) {}
  template <typename T, typename Fields>
  void List(const std::vector<T>& items, const Fields& fields) {
    Arrays arrays;
    const T none{};
    fields(arrays, none);  // as many as there are columns, also for no items
    arrays.Start();
    for (const T& item : items) {
      arrays.Next();
      fields(arrays, item);
    }
    arrays.MoveTo(values_);
  }

  const std::vector<std::optional<std::string>>& values() const { return values_; }

 private:
  class Arrays {
   public:
    template <typename T>
    void Column(const char*, const T& value) {
      if (started_) {
        ColumnType<T>::Add(arrays_[column_++].text, value);
      } else {
        arrays_.emplace_back();
      }
    }
    template <typename T>
    void Joined(const char*, const T&) {}
    template <typename T, typename Fields>
    void Present(const char* name, const std::optional<T>& part, const Fields& fields) {
      Column(name, part.has_value());
      if (part.has_value()) return fields(*part);
      const T none{};
      fields(none);
    }
    template <typename T>
    void Sparse(const char* name, const std::optional<T>& value) {
      if (!started_) {
        arrays_.push_back({{}, true, false});
        return;
      }
      arrays_[column_].has_any = arrays_[column_].has_any || value.has_value();
      Column(name, value);
    }
    void Start() { started_ = true; }
    void Next() { column_ = 0; }
    void MoveTo(std::vector<std::optional<std::string>>& values) const {
      for (const Array& array : arrays_) {
        values.emplace_back(array.is_sparse && !array.has_any ? "{}" : array.text.Text());
      }
    }

   private:
    struct Array {
      ArrayText text;
      bool is_sparse = false;
      bool has_any = false;
    };
    std::vector<Array> arrays_;
    size_t column_ = 0;
    bool started_ = false;
  };

  std::vector<std::optional<std::string>> values_;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_COLUMNS_COLUMN_WRITERS_H_
