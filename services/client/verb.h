// One command that fills in one request, sends it and shows the answer.
#ifndef ROWPROOF_SERVICES_CLIENT_VERB_H_
#define ROWPROOF_SERVICES_CLIENT_VERB_H_

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "google/protobuf/message.h"
#include "services/client/connection.h"
#include "services/client/failure.h"
#include "services/client/files.h"
#include "services/client/output.h"
#include "services/client/parsing/invitation.h"

namespace rowproof::client {

// What every command over the API needs; the references outlive the parsing.
struct Api {
  const ConnectionOptions& connection;
  const OutputOptions& output;
  ExitCode& exit_code;
};

// What help says of resource names.
inline constexpr char kPatternName[] = "The pattern's name: patterns/...";
inline constexpr char kCallName[] = "The test call's name: patterns/.../testCalls/...";
inline constexpr char kSeatName[] = "The seat's name: patterns/.../testCalls/.../seats/...";

// A folder of commands, such as "pattern".
CLI::App* AddNoun(CLI::App& app, const char* name, const char* help);

// How an answer is shown to people: by a function of the answer, or of the answer and a style.
template <typename Answer>
class Text {
 public:
  template <typename Function>
  Text(Function function) {  // NOLINT(google-explicit-constructor): functions are texts
    if constexpr (std::is_invocable_v<Function&, const Answer&, const Style&>) {
      function_ = std::move(function);
    } else {
      function_ = [function = std::move(function)](const Answer& answer, const Style&) {
        return std::string(function(answer));
      };
    }
  }
  std::string operator()(const Answer& answer, const Style& style) const {
    return function_(answer, style);
  }

 private:
  std::function<std::string(const Answer&, const Style&)> function_;
};

// The answer to a file or standard output, as JSON or as `text`.
template <typename Answer>
void ShowAnswer(const Api& api, const Answer& answer, const Text<Answer>& text) {
  WriteFile(api.output.out, api.output.json ? JsonOf(answer) : text(answer, api.output.style));
}

// Gives the request a new request_id if its type has one that is empty.
void GiveRequestId(google::protobuf::Message* request);
// Throws Failure (usage) for an update that names nothing to change.
void RequireChange(const google::protobuf::Message& request);
// Sets a field by its path from text, as the command line has it; throws Failure (usage), which
// calls the field by `called`.
void SetField(google::protobuf::Message* message, const std::string& path, const std::string& text,
              const std::string& called);

// A command under construction: positionals and options are bound to fields of its request by path.
template <typename Request, typename Answer>
class Verb {
 public:
  Verb(CLI::App& noun, const Api& api, const char* name, const char* help, const char* method,
       Text<Answer> text)
      : command_(noun.add_subcommand(name, help)), request_(std::make_shared<Request>()) {
    command_->callback(
        [request = request_, before = before_, names = names_, finds = finds_, &api, method, text] {
          for (const auto& step : *before) step(*request);
          RequireChange(*request);
          GiveRequestId(request.get());
          const auto answer =
              Connection::ToServer(api.connection).Ask<Answer>(method, *request, *names);
          ShowAnswer<Answer>(api, answer, text);
          if (*finds && (*finds)(answer)) api.exit_code = ExitCode::kContentHasErrors;
        });
  }

  // A required positional, or an option ("--title").
  Verb& Field(const std::string& name, const std::string& path, const std::string& help) {
    return Add(name, path, help, !name.starts_with("-"));
  }
  Verb& Needed(const std::string& name, const std::string& path, const std::string& help) {
    return Add(name, path, help, true);
  }
  Verb& Flag(const std::string& name, const std::string& path, const std::string& help) {
    Called(name, path);
    command_->add_flag_function(
        name,
        [request = request_, path, name](std::int64_t) {
          SetField(request.get(), path, "yes", name);
        },
        help);
    return *this;
  }
  // A field of the resource that the request changes: it is named in update_mask too, so that it
  // can be emptied.
  Verb& Change(const std::string& name, const std::string& path, const std::string& help) {
    Field(name, path, help);
    return Masked(name, path);
  }
  // If the option is given, its field goes into update_mask.
  Verb& Masked(const std::string& name, const std::string& path) {
    const CLI::Option* option = command_->get_option(name);
    return Before([option, path](Request& request) {
      if (option->count() == 0) return;
      request.mutable_update_mask()->add_paths(path.substr(path.find('.') + 1));
    });
  }
  // A field that is the text of a file.
  Verb& FileField(const std::string& name, const std::string& path, const std::string& help) {
    Called(name, path);
    command_
        ->add_option_function<std::string>(
            name,
            [request = request_, path, name](const std::string& file) {
              SetField(request.get(), path, ReadTextFile(file), name);
            },
            help)
        ->type_name("FILE")
        ->required(!name.starts_with("-"));
    return *this;
  }
  // A refusal of the field, or of a part of it, calls it `name`. What is bound above is so already.
  Verb& Called(const std::string& name, const std::string& path) {
    (*names_)[path] = name;
    return *this;
  }
  // Runs after parsing, before the request is sent.
  Verb& Before(std::function<void(Request&)> step) {
    before_->push_back(std::move(step));
    return *this;
  }
  // If true of the answer, the command ends with 1.
  Verb& Finds(std::function<bool(const Answer&)> finds) {
    *finds_ = std::move(finds);
    return *this;
  }
  CLI::App& command() { return *command_; }

 private:
  Verb& Add(const std::string& name, const std::string& path, const std::string& help,
            bool needed) {
    Called(name, path);
    command_
        ->add_option_function<std::string>(
            name,
            [request = request_, path, name](const std::string& text) {
              SetField(request.get(), path, text, name);
            },
            help)
        ->required(needed);
    return *this;
  }

  CLI::App* command_;
  std::shared_ptr<Request> request_;
  std::shared_ptr<FieldNames> names_ = std::make_shared<FieldNames>();
  std::shared_ptr<std::vector<std::function<void(Request&)>>> before_ =
      std::make_shared<std::vector<std::function<void(Request&)>>>();
  std::shared_ptr<std::function<bool(const Answer&)>> finds_ =
      std::make_shared<std::function<bool(const Answer&)>>();
};

// The arguments of a command that accepts an invitation. The invitation comes from a file, so that
// it does not appear in the list of processes.
template <typename Request, typename Answer>
void AddInvited(Verb<Request, Answer> verb) {
  verb.FileField("INVITATION", "invitation",
                 "File with what you were sent, a mail that quotes it, or the invitation alone; - "
                 "is standard input")
      .Field("--name", "display_name", "What you want to be called; needed for a new account only")
      .Field("--mail", "mail_address", "Where mail reaches you; for a new account only")
      .Before([](Request& request) { request.set_invitation(InvitationIn(request.invitation())); });
}

// A command that asks for all pages of a list and shows them as one.
template <typename Request, typename Answer>
CLI::App* AddList(CLI::App& noun, const Api& api, const char* name, const char* help,
                  const char* method, const char* parent_help, std::shared_ptr<Request> request,
                  const Text<Answer>& text) {
  auto* command = noun.add_subcommand(name, help);
  if (parent_help != nullptr) {
    command
        ->add_option_function<std::string>(
            "PARENT",
            [request](const std::string& value) {
              SetField(request.get(), "parent", value, "PARENT");
            },
            parent_help)
        ->required();
  }
  command->callback([request, &api, method, text] {
    const Connection connection = Connection::ToServer(api.connection);
    Answer all;
    do {
      request->set_page_token(all.next_page_token());
      request->set_page_size(1000);
      all.clear_next_page_token();
      all.MergeFrom(connection.Ask<Answer>(method, *request));
    } while (!all.next_page_token().empty());
    ShowAnswer<Answer>(api, all, text);
  });
  return command;
}

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_VERB_H_
