#include "services/client/exchange.h"

#include <grpcpp/client_context.h>
#include <grpcpp/completion_queue.h>
#include <grpcpp/generic/generic_stub.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <random>
#include <thread>
#include <vector>

#include "fmt/format.h"

namespace rowproof::client {
namespace {

using Clock = std::chrono::system_clock;

constexpr int kMostTries = 5;

// A line on a terminal that counts seconds and vanishes at the end.
class Progress {
 public:
  Progress(const std::string& what, Clock::time_point start)
      : what_(what), start_(start), terminal_(isatty(STDERR_FILENO) == 1) {}
  ~Progress() {
    if (shown_) std::fputs("\r\033[K", stderr);
  }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void Tick() {
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(Clock::now() - start_);
    if (!terminal_ || seconds.count() < 1) return;
    std::fputs(fmt::format("\r{}: {} s\033[K", what_, seconds.count()).c_str(), stderr);
    std::fflush(stderr);
    shown_ = true;
  }

 private:
  std::string what_;
  Clock::time_point start_;
  bool terminal_;
  bool shown_ = false;
};

grpc::ByteBuffer Packed(const google::protobuf::Message& message) {
  const grpc::Slice slice(message.SerializeAsString());
  return {&slice, 1};
}

bool Unpack(const grpc::ByteBuffer& buffer, google::protobuf::Message* message) {
  std::vector<grpc::Slice> slices;
  if (!buffer.Dump(&slices).ok()) return false;
  std::string bytes;
  for (const auto& slice : slices) {
    bytes.append(reinterpret_cast<const char*>(slice.begin()), slice.size());
  }
  return message->ParseFromString(bytes);
}

// One try. The stream form also serves methods that answer once: on the wire they are the same.
class Try {
 public:
  Try(const Exchange& exchange, const google::protobuf::MethodDescriptor& method,
      Clock::time_point deadline, Progress& progress)
      : method_(method), progress_(progress), stub_(exchange.channel) {
    if (exchange.timeout_seconds > 0) context_.set_deadline(deadline);
    if (!exchange.token.empty()) context_.AddMetadata("authorization", "Bearer " + exchange.token);
    const std::string path = "/" + method.service()->full_name() + "/" + method.name();
    stream_ = stub_.PrepareCall(&context_, path, &queue_);
  }

  grpc::Status Run(const google::protobuf::Message& request, const TakeMessage& take) {
    grpc::Status status;
    stream_->StartCall(this);
    if (Done()) {
      stream_->WriteLast(Packed(request), grpc::WriteOptions(), this);
      if (Done()) ReadAll(take);
    }
    stream_->Finish(&status, this);
    Done();
    if (status.ok() && !readable_) {
      return {grpc::StatusCode::INTERNAL, "the answer is not a message of this version's API"};
    }
    return status;
  }

  bool answered() const { return answered_; }

 private:
  // Waits for the one operation that is under way.
  bool Done() {
    void* tag = nullptr;
    bool ok = false;
    while (queue_.AsyncNext(&tag, &ok, Clock::now() + std::chrono::milliseconds(500)) ==
           grpc::CompletionQueue::TIMEOUT) {
      progress_.Tick();
    }
    return ok;
  }

  void ReadAll(const TakeMessage& take) {
    const auto* prototype =
        google::protobuf::MessageFactory::generated_factory()->GetPrototype(method_.output_type());
    for (;;) {
      grpc::ByteBuffer buffer;
      stream_->Read(&buffer, this);
      if (!Done()) return;
      const std::unique_ptr<google::protobuf::Message> answer(prototype->New());
      readable_ = readable_ && Unpack(buffer, answer.get());
      if (!readable_) return context_.TryCancel();
      answered_ = true;
      take(*answer);
    }
  }

  const google::protobuf::MethodDescriptor& method_;
  Progress& progress_;
  grpc::GenericStub stub_;
  grpc::ClientContext context_;
  grpc::CompletionQueue queue_;
  std::unique_ptr<grpc::GenericClientAsyncReaderWriter> stream_;
  bool readable_ = true;
  bool answered_ = false;
};

}  // namespace

bool MayBeRepeated(const google::protobuf::MethodDescriptor& method,
                   const google::protobuf::Message& request) {
  if (method.name().starts_with("Get") || method.name().starts_with("List")) return true;
  const auto* field = request.GetDescriptor()->FindFieldByName("request_id");
  return field != nullptr &&
         field->cpp_type() == google::protobuf::FieldDescriptor::CPPTYPE_STRING &&
         !field->is_repeated() && !request.GetReflection()->GetString(request, field).empty();
}

grpc::Status Exchange::Run(const google::protobuf::MethodDescriptor& method,
                           const google::protobuf::Message& request,
                           const TakeMessage& take) const {
  const auto start = Clock::now();
  const auto deadline = start + std::chrono::duration_cast<Clock::duration>(
                                    std::chrono::duration<double>(timeout_seconds));
  Progress progress(method.name(), start);
  std::minstd_rand random(std::random_device{}());
  auto pause = std::chrono::milliseconds(200);
  for (int tries = 1;; ++tries) {
    Try one(*this, method, deadline, progress);
    grpc::Status status = one.Run(request, take);
    // The pause is drawn, so that many clients do not come back at the same moment.
    const auto drawn = pause / 2 + std::chrono::milliseconds(std::uniform_int_distribution<long>(
                                       0, pause.count())(random));
    const bool again = status.error_code() == grpc::StatusCode::UNAVAILABLE && !one.answered() &&
                       MayBeRepeated(method, request) && tries < kMostTries &&
                       Clock::now() + drawn < deadline;
    if (!again) return status;
    progress.Tick();
    std::this_thread::sleep_for(drawn);
    pause *= 2;
  }
}

}  // namespace rowproof::client
