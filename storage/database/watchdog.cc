#include "storage/database/watchdog.h"

#include <sys/socket.h>

#include <algorithm>

namespace rowproof::storage {

Watchdog::Watch::Watch(Watchdog& watchdog, int socket, Time when) : watchdog_(watchdog) {
  const std::lock_guard lock(watchdog_.mutex_);
  entry_ = watchdog_.sockets_.emplace(when, socket);
  // To wake the thread at each transaction would cost as much as a message.
  if (std::min(when, watchdog_.end_) < watchdog_.waking_) watchdog_.changed_.notify_one();
}

Watchdog::Watch::~Watch() {
  const std::lock_guard lock(watchdog_.mutex_);
  watchdog_.sockets_.erase(entry_);
}

Watchdog::Watchdog() : thread_([this] { Guard(); }) {}

Watchdog::~Watchdog() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  changed_.notify_one();
  thread_.join();
}

void Watchdog::CutAllAt(Time end) {
  {
    const std::lock_guard lock(mutex_);
    end_ = std::min(end_, end);
  }
  changed_.notify_one();
}

Watchdog::Time Watchdog::end() const {
  const std::lock_guard lock(mutex_);
  return end_;
}

void Watchdog::Guard() {
  std::unique_lock lock(mutex_);
  while (!ending_) {
    const Time now = std::chrono::steady_clock::now();
    waking_ = now + std::chrono::hours(1);
    for (auto& [own, socket] : sockets_) {
      if (const Time when = std::min(own, end_); when > now) {
        waking_ = std::min(waking_, when);
        break;
      }
      if (socket >= 0) shutdown(socket, SHUT_RDWR);
      socket = -1;
    }
    changed_.wait_until(lock, waking_);
  }
}

}  // namespace rowproof::storage
