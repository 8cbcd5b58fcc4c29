// The server's memory: what is free goes back to the machine, and before the rest is gone the
// server starts again.
#ifndef ROWPROOF_SERVICES_SERVER_MEMORY_LIMIT_H_
#define ROWPROOF_SERVICES_SERVER_MEMORY_LIMIT_H_

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "services/server/configuration.h"

namespace rowproof::server {

// The process's resident memory in MiB; 0 if it cannot be known.
int ResidentMib();

// Runs in its own thread from construction to destruction.
class MemoryWatch {
 public:
  // `full` is called once, in that thread, when the process has more than three quarters of
  // `limit_mib` (0: never): what is left is for the time until something has been done about it.
  // Memory grows by 600 MiB in a second at most (measured: one connection that resets streams).
  // Above 128 MiB what the C library keeps for later is given back every 2 seconds: it keeps a
  // large request's memory for good otherwise (measured: 1 GB after one of each method).
  MemoryWatch(int limit_mib, std::function<void()> full);
  ~MemoryWatch();
  MemoryWatch(const MemoryWatch&) = delete;
  MemoryWatch& operator=(const MemoryWatch&) = delete;

 private:
  void Watch();

  const int limit_mib_;
  const std::function<void()> full_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool ending_ = false;
  std::thread thread_;
};

// The server in the place of itself: the same process, begun anew. It is made before root is left,
// and keeps what `serve` reads: afterwards the files of TLS may be out of reach. One thread at a
// time.
class StartAgain {
 public:
  explicit StartAgain(const Configuration& configuration);

  // Replaces the running program by itself, with the same options, on `address`. Requests in flight
  // get a moment to end; then their connections are cut, as if the server had been killed, so
  // nothing that was acknowledged is lost. The private PostgreSQL goes on. Returns only if
  // `stopping` became true: who is asked to end does not start again.
  void Now(const std::string& address, const std::atomic<bool>& stopping) const;

 private:
  std::string Kept(const std::string& path);

  Configuration configuration_;
  std::vector<int> files_;  // in memory; they outlive the program
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_MEMORY_LIMIT_H_
