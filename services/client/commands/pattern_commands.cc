// pattern and editor.
#include <memory>
#include <string>

#include "rowproof/v1/pattern.pb.h"
#include "rowproof/v1/pattern_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

std::string PatternText(const v1::Pattern& pattern, const Style& style) {
  return RecordOf(pattern, style);
}

std::string PatternList(const v1::ListPatternsResponse& answer) {
  return ListOf(answer.patterns(), {{"Name", "name"},
                                    {"Versions", "version_count"},
                                    {"Made", "create_time"},
                                    {"Archived", "archive_time"},
                                    {"Title", "title"}});
}

std::string EditorText(const v1::Editor& editor, const Style& style) {
  return RecordOf(editor, style);
}

std::string EditorList(const v1::ListEditorsResponse& answer) {
  return ListOf(answer.editors(), {{"Name", "name"},
                                   {"State", "state"},
                                   {"Called", "display_name"},
                                   {"Invited as", "label"},
                                   {"Until", "expire_time"}});
}

std::string AcceptedText(const v1::AcceptEditorInvitationResponse& answer) {
  const std::string& name = answer.editor().name();
  std::string text = "You may read the pattern: " + name.substr(0, name.find("/editors/")) +
                     "\nYour account: " + answer.editor().account() + "\n";
  if (answer.secret().empty()) return text;
  return text + "Your token, shown only now (keep it in a file that nobody else can read):\n" +
         answer.secret() + "\n";
}

void AddEditorCommands(CLI::App& app, const Api& api) {
  constexpr char kEditorName[] = "The editor's name: patterns/.../editors/...";
  auto* editor = AddNoun(app, "editor", "Technical editors who may read a pattern");
  Verb<v1::CreateEditorRequest, v1::Editor>(
      *editor, api, "invite", "Invite a technical editor to a pattern; prints the invitation, once",
      "PatternService.CreateEditor", EditorText)
      .Field("PATTERN", "parent", kPatternName)
      .Field("--label", "label", "What you call the invitation")
      .Field("--days", "valid_days", "Days until it expires, 1 to 60 (default: 60)");
  AddInvited(Verb<v1::AcceptEditorInvitationRequest, v1::AcceptEditorInvitationResponse>(
      *editor, api, "accept",
      "Accept an invitation to edit: with your token for your own account, without one for a new "
      "account, whose token is printed once",
      "PatternService.AcceptEditorInvitation", AcceptedText));
  Verb<v1::GetEditorRequest, v1::Editor>(*editor, api, "show", "One editor or invitation",
                                         "PatternService.GetEditor", EditorText)
      .Field("EDITOR", "name", kEditorName);
  AddList<v1::ListEditorsRequest, v1::ListEditorsResponse>(
      *editor, api, "list", "A pattern's editors and invitations", "PatternService.ListEditors",
      kPatternName, std::make_shared<v1::ListEditorsRequest>(), EditorList);
  Verb<v1::DeleteEditorRequest, v1::DeleteEditorResponse>(
      *editor, api, "remove", "End an editor's access, or withdraw an invitation",
      "PatternService.DeleteEditor",
      [](const v1::DeleteEditorResponse&) { return std::string("The access has ended.\n"); })
      .Field("EDITOR", "name", kEditorName);
}

}  // namespace

void AddPatternCommands(CLI::App& app, const Api& api) {
  auto* pattern = AddNoun(app, "pattern", "Your patterns");
  Verb<v1::CreatePatternRequest, v1::Pattern>(*pattern, api, "new", "Begin a pattern",
                                              "PatternService.CreatePattern", PatternText)
      .Field("TITLE", "title", "The pattern's title");
  const auto asked = std::make_shared<v1::ListPatternsRequest>();
  auto* list = AddList<v1::ListPatternsRequest, v1::ListPatternsResponse>(
      *pattern, api, "list", "The patterns that you may see, newest first",
      "PatternService.ListPatterns", nullptr, asked, PatternList);
  list->add_flag_function(
      "--archived", [asked](std::int64_t) { asked->set_show_archived(true); },
      "Archived ones as well");
  Verb<v1::GetPatternRequest, v1::Pattern>(*pattern, api, "show", "One pattern",
                                           "PatternService.GetPattern", PatternText)
      .Field("PATTERN", "name", kPatternName);
  Verb<v1::UpdatePatternRequest, v1::Pattern>(*pattern, api, "rename", "Change a pattern's title",
                                              "PatternService.UpdatePattern", PatternText)
      .Field("PATTERN", "pattern.name", kPatternName)
      .Change("TITLE", "pattern.title", "The new title")
      .Field("--etag", "pattern.etag", "Only if the pattern still has this etag");
  Verb<v1::ArchivePatternRequest, v1::Pattern>(
      *pattern, api, "archive",
      "Archive a pattern: hidden from lists, no new versions or test calls",
      "PatternService.ArchivePattern", PatternText)
      .Field("PATTERN", "name", kPatternName)
      .Field("--etag", "etag", "Only if the pattern still has this etag");
  Verb<v1::UnarchivePatternRequest, v1::Pattern>(*pattern, api, "unarchive",
                                                 "Take a pattern out of the archive",
                                                 "PatternService.UnarchivePattern", PatternText)
      .Field("PATTERN", "name", kPatternName)
      .Field("--etag", "etag", "Only if the pattern still has this etag");
  AddEditorCommands(app, api);
}

}  // namespace rowproof::client
