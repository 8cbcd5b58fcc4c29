#include "services/server/logs.h"

#include <grpc/support/log.h>
#include <spdlog/sinks/base_sink.h>
#include <spdlog/spdlog.h>

#include <memory>
#include <mutex>

#include "services/server/log_writer.h"

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

class WriterSink : public spdlog::sinks::base_sink<std::mutex> {
 protected:
  void sink_it_(const spdlog::details::log_msg& message) override {
    spdlog::memory_buf_t line;
    formatter_->format(message, line);
    LogWriter::ToStandardError().Write(std::string(line.data(), line.size()));
  }
  void flush_() override {}
};

// gRPC's own words would go to standard error directly, and whoever caused them would wait there.
void LogOfGrpc(gpr_log_func_args* said) {
  std::string words(said->message);
  for (char& c : words) {
    if (c == '\n' || c == '\r') c = ' ';
  }
  spdlog::log(said->severity == GPR_LOG_SEVERITY_ERROR ? spdlog::level::warn : spdlog::level::debug,
              "grpc file={} line={} {}", said->file, said->line, words);
}

const char* OrDash(const std::string& text) { return text.empty() ? "-" : text.c_str(); }

}  // namespace

void StartLog(const std::string& level) {
  spdlog::set_default_logger(
      std::make_shared<spdlog::logger>("rowproofd", std::make_shared<WriterSink>()));
  spdlog::set_pattern("%Y-%m-%dT%H:%M:%S.%fZ %l %v", spdlog::pattern_time_type::utc);
  spdlog::set_level(spdlog::level::from_str(level));
  gpr_set_log_function(LogOfGrpc);
}

void FlushLog() { LogWriter::ToStandardError().Flush(std::chrono::seconds(1)); }

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
