// What the lists of stored fields are written with; see json_reader.h.
#ifndef ROWPROOF_STORAGE_JSON_JSON_FIELDS_H_
#define ROWPROOF_STORAGE_JSON_JSON_FIELDS_H_

#include <concepts>
#include <type_traits>

namespace rowproof::storage {

// The structure, which is read, or its const, which is written.
template <typename T, typename Struct>
concept StructOf = std::same_as<std::remove_const_t<T>, Struct>;

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_JSON_JSON_FIELDS_H_
