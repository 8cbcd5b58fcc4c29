#include "storage/watchdog.h"

#include <sys/socket.h>

namespace rowproof::storage {

Watchdog::Watch::Watch(Watchdog& watchdog, int socket, Time when) : watchdog_(watchdog) {
  const std::lock_guard lock(watchdog_.mutex_);
  entry_ = watchdog_.sockets_.emplace(when, socket);
  // Only a new earliest time changes what the thread waits for.
  if (entry_ == watchdog_.sockets_.begin()) watchdog_.changed_.notify_one();
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

void Watchdog::Guard() {
  std::unique_lock lock(mutex_);
  while (!ending_) {
    const Time now = std::chrono::steady_clock::now();
    Time next = now + std::chrono::hours(1);
    for (auto& [when, socket] : sockets_) {
      if (when > now) {
        next = when;
        break;
      }
      if (socket >= 0) shutdown(socket, SHUT_RDWR);
      socket = -1;
    }
    changed_.wait_until(lock, next);
  }
}

}  // namespace rowproof::storage
