#include "services/server/logs.h"

#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

namespace rowproof::server {
namespace {

// Names of the published gRPC codes.
const char* CodeName(grpc::StatusCode code) {
  constexpr const char* kNames[] = {"OK",
                                    "CANCELLED",
                                    "UNKNOWN",
                                    "INVALID_ARGUMENT",
                                    "DEADLINE_EXCEEDED",
                                    "NOT_FOUND",
                                    "ALREADY_EXISTS",
                                    "PERMISSION_DENIED",
                                    "RESOURCE_EXHAUSTED",
                                    "FAILED_PRECONDITION",
                                    "ABORTED",
                                    "OUT_OF_RANGE",
                                    "UNIMPLEMENTED",
                                    "INTERNAL",
                                    "UNAVAILABLE",
                                    "DATA_LOSS",
                                    "UNAUTHENTICATED"};
  return code >= 0 && code <= grpc::StatusCode::UNAUTHENTICATED ? kNames[code] : "UNKNOWN";
}

const char* OrDash(const std::string& text) { return text.empty() ? "-" : text.c_str(); }

}  // namespace

void StartLog(const std::string& level) {
  spdlog::set_default_logger(spdlog::stderr_logger_mt("rowproofd"));
  spdlog::set_pattern("%Y-%m-%dT%H:%M:%S.%fZ %l %v", spdlog::pattern_time_type::utc);
  spdlog::set_level(spdlog::level::from_str(level));
  spdlog::flush_on(spdlog::level::info);
}

void RequestLog::Served(const rpc::ServedRequest& request) {
  const auto level =
      request.code == grpc::StatusCode::INTERNAL ? spdlog::level::err : spdlog::level::info;
  spdlog::log(level, "call method={} status={} duration_us={} account={} request_id={}{}{}",
              request.method, CodeName(request.code), request.duration.count(),
              OrDash(request.account), OrDash(request.request_id),
              request.incident.empty() ? "" : " incident=", request.incident);
}

void DatabaseLog::Failed(const char* transaction, const std::string& sqlstate,
                         const std::string& constraint, bool again) {
  spdlog::warn("transaction name={} sqlstate={} constraint={} again={}", transaction,
               OrDash(sqlstate), OrDash(constraint), again);
}

void DatabaseLog::Unreadable(const char* transaction, const std::string& table,
                             const std::string& column, const std::string& field,
                             const std::string& resource) {
  spdlog::error("unreadable transaction={} table={} column={} field={} resource={}", transaction,
                table, column, OrDash(field), OrDash(resource));
}

}  // namespace rowproof::server
