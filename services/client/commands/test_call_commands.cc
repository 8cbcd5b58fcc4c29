// testcall.
#include <charconv>
#include <memory>
#include <vector>

#include "fmt/format.h"
#include "rowproof/v1/test_call.pb.h"
#include "rowproof/v1/test_call_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/failure.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

std::string CallText(const v1::TestCall& call, const Style& style) {
  std::string text = fmt::format("{} ({})\n", call.name(), Word(call.state()));
  text += Paragraph("Title: ", call.settings().title());
  text += fmt::format("Version: {}\nMade: {}\nEtag: {}\n", call.version(),
                      TimeText(call.create_time()), call.etag());
  if (!call.settings().deadline().empty()) {
    text += fmt::format("Deadline: {}{}\n", call.settings().deadline(),
                        call.deadline_passed() ? " (passed)" : "");
  }
  if (!call.progress().empty()) {
    text += "\n" + ListOf(call.progress(), {{"Size", "size"},
                                            {"Offered", "offered_count"},
                                            {"At work", "taken_count"},
                                            {"Finished", "finished_count"},
                                            {"Needed", "required_count"},
                                            {"Given up", "given_up_count"},
                                            {"Cancelled", "cancelled_count"},
                                            {"Enough", "enough"},
                                            {"In reach", "within_reach"}});
  }
  if (!style.details) return text + "\n--details shows versions sent and what testers read.\n";
  if (!call.sent_versions().empty()) {
    text +=
        "\n" + ListOf(call.sent_versions(), {{"Version sent", "version"}, {"When", "send_time"}});
  }
  if (!call.conditions().empty()) text += "\nWhat testers read\n";
  for (const auto& line : call.conditions()) text += Paragraph("  ", line);
  return text;
}

std::string CallList(const v1::ListTestCallsResponse& answer) {
  return ListOf(answer.test_calls(), {{"Name", "name"},
                                      {"State", "state"},
                                      {"Version", "version"},
                                      {"Deadline", "settings.deadline"},
                                      {"Title", "settings.title"}});
}

std::string SentText(const v1::SendVersionResponse& answer, const Style& style) {
  std::string text = fmt::format(
      "Sent: {}\nTesters with changed rows behind them: {}; ahead only: {}; without change: {}.\n",
      answer.test_call().version(), answer.behind_count(), answer.ahead_count(),
      answer.unchanged_count());
  if (!style.details) return text + "--details shows each tester's rows.\n";
  for (const auto& seat : answer.seats()) text += "\n" + TextOf(seat);
  return text;
}

int CountOf(const std::string& option, const std::string& text, size_t from, size_t to) {
  int value = -1;
  const auto [end, error] = std::from_chars(text.data() + from, text.data() + to, value);
  if (error != std::errc() || end != text.data() + to) {
    throw MustBe(option, "SIZE:SEATS:NEEDED, such as wide:4:3", text);
  }
  return value;
}

v1::WantedSize WantedOf(const std::string& text) {
  const size_t second = text.rfind(':');
  const size_t first =
      second == std::string::npos || second == 0 ? std::string::npos : text.rfind(':', second - 1);
  const size_t none = std::string::npos;
  v1::WantedSize wanted;
  wanted.set_size(text.substr(0, first == none ? 0 : first));
  const size_t seats = first == none ? 0 : first + 1;
  wanted.set_seat_count(CountOf("--want", text, seats, second == none ? seats : second));
  wanted.set_required_count(CountOf("--want", text, second + 1, text.size()));
  return wanted;
}

// One option, for a new call or for a change of one: there it names its field in update_mask.
template <typename Request>
class Setting {
 public:
  explicit Setting(Verb<Request, v1::TestCall>& verb) : verb_(verb) {}

  Setting& Text(const std::string& name, const std::string& field, const std::string& help) {
    verb_.Field(name, kPrefix + field, help);
    return Mask(name, field);
  }
  Setting& Flag(const std::string& name, const std::string& field, const std::string& help) {
    verb_.Flag(name, kPrefix + field, help);
    return Mask(name, field);
  }
  Setting& File(const std::string& name, const std::string& field, const std::string& help) {
    verb_.FileField(name, kPrefix + field, help);
    return Mask(name, field);
  }
  Setting& Mask(const std::string& name, const std::string& field) {
    verb_.Called(name, kPrefix + field);
    if constexpr (kChanges) verb_.Masked(name, kPrefix + field);
    return *this;
  }

  static constexpr bool kChanges = requires(Request request) { request.update_mask(); };

 private:
  static inline const std::string kPrefix = kChanges ? "test_call.settings." : "settings.";
  Verb<Request, v1::TestCall>& verb_;
};

v1::CallSettings* SettingsOf(v1::CreateTestCallRequest& request) {
  return request.mutable_settings();
}
v1::CallSettings* SettingsOf(v1::UpdateTestCallRequest& request) {
  return request.mutable_test_call()->mutable_settings();
}

template <typename Request>
void AddSettings(Verb<Request, v1::TestCall>& verb) {
  Setting<Request> setting(verb);
  const bool needed = !Setting<Request>::kChanges;
  setting.Text("--title", "title", "Title of the call");
  verb.command().get_option("--title")->required(needed);
  const auto wanted = std::make_shared<std::vector<std::string>>();
  verb.command()
      .add_option("--want", *wanted,
                  "SIZE:SEATS:NEEDED: testers wanted, and finished ones that a release waits for; "
                  "give it once for every size")
      ->required(needed)
      ->expected(1)
      ->take_all();
  setting.Mask("--want", "sizes")
      .Text("--deadline", "deadline", "Last day, such as 2026-03-31 (UTC)")
      .Text("--yarn", "yarn", "same as the pattern's, or free")
      .Text("--hook", "hook", "same as the pattern's, or free")
      .Flag("--swatch", "swatch_wanted", "A swatch is to be measured first")
      .Text("--confidential", "confidential", "yes or no (default: yes)")
      .Text("--photographs-by-permission", "photographs_by_permission", "yes or no (default: yes)")
      .Text("--reward", "reward", "What testers receive")
      .Text("--language", "language", "Language in which reports are read")
      .File("--notes", "notes", "Text of anything else that testers should know");
  verb.Before([wanted](Request& request) {
    for (const auto& size : *wanted) *SettingsOf(request)->add_sizes() = WantedOf(size);
  });
}

template <typename Request>
void AddStep(CLI::App& noun, const Api& api, const char* name, const char* help,
             const char* method) {
  Verb<Request, v1::TestCall>(noun, api, name, help, method, CallText)
      .Field("CALL", "name", kCallName);
}

void AddStates(CLI::App& noun, const Api& api) {
  AddStep<v1::OpenTestCallRequest>(noun, api, "open", "Open a draft: seats may be taken",
                                   "TestCallService.OpenTestCall");
  AddStep<v1::CloseTestCallRequest>(noun, api, "close", "Close a call: no more reports",
                                    "TestCallService.CloseTestCall");
  AddStep<v1::ReopenTestCallRequest>(noun, api, "reopen", "Open a closed call again",
                                     "TestCallService.ReopenTestCall");
  Verb<v1::SendVersionRequest, v1::SendVersionResponse>(
      noun, api, "send",
      "Send another version to the testers; shows which changed rows each has worked",
      "TestCallService.SendVersion", SentText)
      .Field("CALL", "name", kCallName)
      .Field("VERSION", "version", "The version's name: patterns/.../versions/...");
}

}  // namespace

void AddTestCallCommands(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "testcall", "Test calls of a pattern");
  Verb<v1::CreateTestCallRequest, v1::TestCall> made(*noun, api, "new",
                                                     "Prepare a call on a workable version",
                                                     "TestCallService.CreateTestCall", CallText);
  made.Field("PATTERN", "parent", kPatternName)
      .Needed("--version", "version", "The version to test: patterns/.../versions/...");
  AddSettings(made);
  Verb<v1::UpdateTestCallRequest, v1::TestCall> changed(*noun, api, "change",
                                                        "Change the settings that are given",
                                                        "TestCallService.UpdateTestCall", CallText);
  changed.Field("CALL", "test_call.name", kCallName)
      .Field("--etag", "test_call.etag", "Only if the call still has this etag");
  AddSettings(changed);
  AddList<v1::ListTestCallsRequest, v1::ListTestCallsResponse>(
      *noun, api, "list", "A pattern's test calls, newest first", "TestCallService.ListTestCalls",
      kPatternName, std::make_shared<v1::ListTestCallsRequest>(), CallList);
  AddStep<v1::GetTestCallRequest>(*noun, api, "show", "One test call and its progress",
                                  "TestCallService.GetTestCall");
  Verb<v1::DeleteTestCallRequest, v1::DeleteTestCallResponse>(
      *noun, api, "delete", "Delete a draft; its invitations are void",
      "TestCallService.DeleteTestCall",
      [](const v1::DeleteTestCallResponse&) { return std::string("The draft is deleted.\n"); })
      .Field("CALL", "name", kCallName);
  AddStates(*noun, api);
  AddSeatList(*noun, api);
  AddSeatCommands(app, api);
}

}  // namespace rowproof::client
