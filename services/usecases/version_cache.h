// Decoded versions, kept between calls: a version never changes, and every report is judged by one.
#ifndef ROWPROOF_SERVICES_USECASES_VERSION_CACHE_H_
#define ROWPROOF_SERVICES_USECASES_VERSION_CACHE_H_

#include <cstddef>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

#include "services/domain/identifiers.h"
#include "services/domain/patterns/version_content.h"

namespace rowproof::usecases {

// Shared by the requests that read it.
using KeptVersion = std::shared_ptr<const patterns::VersionContent>;

// Holds what was asked for last, up to `most_bytes` of charts. Who may see a version is not its
// concern. Thread-safe.
class VersionCache {
 public:
  explicit VersionCache(size_t most_bytes = size_t{64} << 20) : most_bytes_(most_bytes) {}

  // Null if it is not kept.
  KeptVersion Find(const PatternId& pattern, int number);
  void Keep(const PatternId& pattern, int number, KeptVersion content);

 private:
  using Key = std::pair<std::string, int>;
  struct Entry {
    Key key;
    size_t bytes = 0;
    KeptVersion content;
  };

  const size_t most_bytes_;
  std::mutex mutex_;
  size_t bytes_ = 0;
  std::list<Entry> entries_;  // the last asked for first
  std::map<Key, std::list<Entry>::iterator> places_;
};

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_VERSION_CACHE_H_
