// Why a command was not done: one line for people and the number that the program exits with.
#ifndef ROWPROOF_SERVICES_CLIENT_FAILURE_H_
#define ROWPROOF_SERVICES_CLIENT_FAILURE_H_

#include <grpcpp/support/status.h>

#include <exception>
#include <map>
#include <string>
#include <string_view>
#include <utility>

namespace rowproof::client {

// Numbers that the program exits with; documented in --help.
enum class ExitCode {
  kDone = 0,
  kContentHasErrors = 1,  // done, and the answer is that chart or text have errors, or disagree
  kUsage = 2,             // the command line itself is wrong
  kRefused = 3,           // the content, the state or the rights do not allow it
  kNotFound = 4,          // a file or a resource is not there
  kUnavailable = 5,       // the server cannot be reached or has no time; trying again makes sense
  kInternalError = 70,    // the program or the server has an internal error
};

inline constexpr char kExitCodesHelp[] =
    "Exit codes: 0 done, 1 done and errors or differences found, 2 usage, 3 refused, 4 not found,\n"
    "5 try again, 70 internal error.";

// Travels from any command to the program's end; nothing else is thrown by this folder.
class Failure : public std::exception {
 public:
  Failure(ExitCode code, std::string line) : code_(code), line_(std::move(line)) {}
  const char* what() const noexcept override { return line_.c_str(); }
  ExitCode code() const { return code_; }
  const std::string& line() const { return line_; }

 private:
  ExitCode code_;
  std::string line_;
};

// What a command calls the fields of its request, by their paths: {"size", "SIZE"}.
using FieldNames = std::map<std::string, std::string>;

// Of an answer that is not OK.
ExitCode ExitCodeOf(const grpc::Status& status);
// What is wrong, by the status's details, else its message; fields are called what the command
// calls them, otherwise by the option that sets them.
std::string LineOf(const grpc::Status& status, const FieldNames& names = {});
Failure FailureOf(const grpc::Status& status, const FieldNames& names = {});

// `NAME must be what is expected (got "what was typed")`.
Failure MustBe(const std::string& name, const std::string& expected, std::string_view got,
               ExitCode code = ExitCode::kUsage);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_FAILURE_H_
