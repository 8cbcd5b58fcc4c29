#include "services/server/health.h"

#include <spdlog/spdlog.h>

#include <utility>

#include "grpc/health/v1/health.pb.h"
#include "services/server/program.h"
#include "storage/database/claims.h"

namespace rowproof::server {
namespace {

constexpr std::chrono::seconds kBetweenLooks{1};
constexpr std::chrono::hours kBetweenPrunings{1};

}  // namespace

HealthWatch::HealthWatch(storage::Database& database, grpc::HealthCheckServiceInterface& health,
                         const std::vector<std::string>& services, std::function<void()> tend,
                         std::function<void()> revive)
    : database_(database), health_(health), tend_(std::move(tend)), revive_(std::move(revive)) {
  for (const std::string& service : services) health_.SetServingStatus(service, true);
  health_.SetServingStatus("grpc.health.v1.Health", true);
  // gRPC answers for it without its descriptor, which reflection is asked for.
  google::protobuf::LinkMessageReflection<grpc::health::v1::HealthCheckRequest>();
  thread_ = std::thread([this] { Watch(); });
}

HealthWatch::~HealthWatch() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  ended_.notify_all();
  thread_.join();
}

void HealthWatch::Watch() {
  bool serving = true;
  auto next_pruning = std::chrono::steady_clock::now();
  std::unique_lock lock(mutex_);
  while (!ending_) {
    lock.unlock();
    const bool answers = database_.Ping().ok();
    if (answers != serving) {
      serving = answers;
      health_.SetServingStatus(serving);
      spdlog::warn("health serving={}", serving);
    }
    ReapChildren();
    if (!answers) revive_();
    tend_();
    if (answers && std::chrono::steady_clock::now() >= next_pruning) {
      next_pruning = std::chrono::steady_clock::now() + kBetweenPrunings;
      storage::PruneClaims(database_).IgnoreError();  // the next hour tries again
    }
    lock.lock();
    ended_.wait_for(lock, kBetweenLooks, [this] { return ending_; });
  }
}

}  // namespace rowproof::server
