#include "services/domain/stop.h"

namespace rowproof {

bool Stop::Look() const {
  if (signal_ == nullptr) {
    left_ = std::numeric_limits<int64_t>::max();
    return false;
  }
  if (status_.ok()) status_ = signal_->Look();
  left_ = status_.ok() ? kWorkBetweenLooks : -1;
  return !status_.ok();
}

}  // namespace rowproof
