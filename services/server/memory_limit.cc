#include "services/server/memory_limit.h"

#include <fcntl.h>
#include <malloc.h>
#include <spdlog/spdlog.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>

#include "services/server/logs.h"

namespace rowproof::server {
namespace {

constexpr std::chrono::milliseconds kBetweenLooks{20};
constexpr std::chrono::seconds kBetweenReturns{2};
constexpr int kLittleMib = 128;
constexpr std::chrono::milliseconds kForRequestsInFlight{200};
constexpr int kFailed = 3;
constexpr char kOpenFiles[] = "/proc/self/fd/";

}  // namespace

int ResidentMib() {
  std::ifstream file("/proc/self/statm");
  long total = 0;
  long resident = 0;  // in pages (proc(5))
  if (!(file >> total >> resident)) return 0;
  return static_cast<int>(resident * (sysconf(_SC_PAGESIZE) / 1024) / 1024);
}

MemoryWatch::MemoryWatch(int limit_mib, std::function<void()> full)
    : limit_mib_(limit_mib), full_(std::move(full)) {
  thread_ = std::thread([this] { Watch(); });
}

MemoryWatch::~MemoryWatch() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  ended_.notify_all();
  thread_.join();
}

void MemoryWatch::Watch() {
  std::unique_lock lock(mutex_);
  auto returned = std::chrono::steady_clock::now();
  while (!ended_.wait_for(lock, kBetweenLooks, [this] { return ending_; })) {
    const int resident = ResidentMib();
    if (limit_mib_ > 0 && resident > limit_mib_ / 4 * 3) {
      full_();
      return;
    }
    const auto now = std::chrono::steady_clock::now();
    if (resident <= kLittleMib || now - returned < kBetweenReturns) continue;
    malloc_trim(0);
    returned = now;
  }
}

StartAgain::StartAgain(const Configuration& configuration) : configuration_(configuration) {
  for (std::string* path : {&configuration_.tls_certificate_file, &configuration_.tls_key_file,
                            &configuration_.client_certificates_file}) {
    if (path->starts_with(kOpenFiles)) {  // kept by the program in whose place this one is
      files_.push_back(std::stoi(path->substr(sizeof(kOpenFiles) - 1)));
    } else if (!path->empty() && geteuid() == 0) {  // others can read again what they read once
      *path = Kept(*path);
    }
  }
}

// A copy in memory, by the name under which any user may open it again.
std::string StartAgain::Kept(const std::string& path) {
  std::error_code unknown;
  if (!std::filesystem::is_regular_file(path, unknown)) return path;  // who reads it says so
  std::ifstream file(path, std::ios::binary);
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  const int copy = memfd_create("rowproofd", MFD_CLOEXEC);
  if (copy < 0) return path;
  files_.push_back(copy);
  const bool written = write(copy, text.data(), text.size()) == static_cast<ssize_t>(text.size());
  return file && written ? kOpenFiles + std::to_string(copy) : path;
}

void StartAgain::Now(const std::string& address, const std::atomic<bool>& stopping) const {
  const Configuration& c = configuration_;
  std::vector<std::string> arguments = {"rowproofd", "serve"};
  const std::pair<const char*, std::string> options[] = {
      {"--var", c.var},
      {"--database", c.database},
      {"--listen", address},
      {"--tls-certificate", c.tls_certificate_file},
      {"--tls-key", c.tls_key_file},
      {"--client-certificates", c.client_certificates_file},
      {"--postgres-programs", c.postgres_programs},
      {"--migrations", c.migrations},
      {"--pool", std::to_string(c.pool_size)},
      {"--threads", std::to_string(c.threads)},
      {"--memory-mib", std::to_string(c.memory_mib)},
      {"--shutdown-seconds", std::to_string(c.shutdown_seconds)},
      {"--log-level", c.log_level}};
  for (const auto& option : options) {
    if (option.second.empty()) continue;
    arguments.emplace_back(option.first);
    arguments.push_back(option.second);
  }
  std::vector<char*> argv;
  for (std::string& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  std::this_thread::sleep_for(kForRequestsInFlight);
  if (stopping) return;
  FlushLog();
  close_range(STDERR_FILENO + 1, ~0U, CLOSE_RANGE_CLOEXEC);
  for (const int file : files_) fcntl(file, F_SETFD, 0);
  execv("/proc/self/exe", argv.data());
  spdlog::critical("start again failed: {}", std::strerror(errno));
  FlushLog();
  _exit(kFailed);
}

}  // namespace rowproof::server
