// Places in a row as indices of a container.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_INDEX_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_INDEX_H_

#include <cstddef>

namespace rowproof::rows {

// i is 0 or more.
inline size_t Index(int i) { return static_cast<size_t>(i); }

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_INDEX_H_
