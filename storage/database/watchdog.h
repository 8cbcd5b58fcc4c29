// Cuts connections whose statement outlives its deadline. The server's statement_timeout ends a
// slow statement; if the database has stopped answering, only closing the connection helps.
#ifndef ROWPROOF_STORAGE_DATABASE_WATCHDOG_H_
#define ROWPROOF_STORAGE_DATABASE_WATCHDOG_H_

#include <chrono>
#include <condition_variable>
#include <map>
#include <mutex>
#include <thread>

namespace rowproof::storage {

// Thread-safe. Has its own thread from construction to destruction.
class Watchdog {
 public:
  using Time = std::chrono::steady_clock::time_point;

  Watchdog();
  ~Watchdog();
  Watchdog(const Watchdog&) = delete;
  Watchdog& operator=(const Watchdog&) = delete;

  // Cuts every socket once `end` has passed, whatever its own time, and those that come after.
  void CutAllAt(Time end);
  // The latest time that any watch has; Time::max() unless CutAllAt was called.
  Time end() const;

  // While this lives, the socket is shut down once `when` has passed; reading from it then fails as
  // if the server had gone. The socket stays open at least as long as this.
  class Watch {
   public:
    Watch(Watchdog& watchdog, int socket, Time when);
    ~Watch();
    Watch(const Watch&) = delete;
    Watch& operator=(const Watch&) = delete;

   private:
    Watchdog& watchdog_;
    std::multimap<Time, int>::iterator entry_;
  };

 private:
  void Guard();

  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::multimap<Time, int> sockets_;  // -1 once it was cut
  Time waking_ = Time::max();         // when the thread looks next, unless it is woken
  Time end_ = Time::max();            // nothing is watched beyond
  bool ending_ = false;
  std::thread thread_;
};

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_WATCHDOG_H_
