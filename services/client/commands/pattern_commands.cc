// pattern and editor.
#include "rowproof/v1/pattern.pb.h"
#include "rowproof/v1/pattern_service.pb.h"
#include "services/client/commands/server_commands.h"
#include "services/client/commands/verb.h"
#include "services/client/tables/views.h"

namespace rowproof::client {
namespace {

std::string PatternText(const v1::Pattern& pattern, const Style& style) {
  return RecordOf(pattern, style);
}

std::string PatternList(const v1::ListPatternsResponse& answer) {
  return ListOf(answer.patterns(), {{"Name", "name"},
                                    {"Versions", "version_count"},
                                    {"Made", "create_time"},
                                    {"Title", "title"}});
}

std::string EditorList(const v1::ListEditorsResponse& answer) {
  return ListOf(answer.editors(), {{"Name", "name"}, {"Called", "display_name"}});
}

void AddEditorCommands(CLI::App& app, const Api& api) {
  auto* editor = AddNoun(app, "editor", "Technical editors who may read a pattern");
  Verb<v1::CreateEditorRequest, v1::Editor>(
      *editor, api, "add", "Let a new technical editor read a pattern; prints their token, once",
      "PatternService.CreateEditor",
      [](const v1::Editor& added, const Style& style) { return RecordOf(added, style); })
      .Field("PATTERN", "parent", kPatternName)
      .Needed("--name", "display_name", "What the editor is called");
  Verb<v1::DeleteEditorRequest, v1::DeleteEditorResponse>(
      *editor, api, "remove", "End an editor's access", "PatternService.DeleteEditor",
      [](const v1::DeleteEditorResponse&) { return std::string("The access has ended.\n"); })
      .Field("EDITOR", "name", "The editor's name: patterns/.../editors/...");
  Verb<v1::ListEditorsRequest, v1::ListEditorsResponse>(*editor, api, "list", "A pattern's editors",
                                                        "PatternService.ListEditors", EditorList)
      .Field("PATTERN", "parent", kPatternName);
}

}  // namespace

void AddPatternCommands(CLI::App& app, const Api& api) {
  auto* pattern = AddNoun(app, "pattern", "Your patterns");
  Verb<v1::CreatePatternRequest, v1::Pattern>(*pattern, api, "new", "Begin a pattern",
                                              "PatternService.CreatePattern", PatternText)
      .Field("TITLE", "title", "The pattern's title");
  AddList<v1::ListPatternsRequest, v1::ListPatternsResponse>(
      *pattern, api, "list", "The patterns that you may see, newest first",
      "PatternService.ListPatterns", nullptr, std::make_shared<v1::ListPatternsRequest>(),
      PatternList);
  Verb<v1::GetPatternRequest, v1::Pattern>(*pattern, api, "show", "One pattern",
                                           "PatternService.GetPattern", PatternText)
      .Field("PATTERN", "name", kPatternName);
  Verb<v1::UpdatePatternRequest, v1::Pattern>(*pattern, api, "rename", "Change a pattern's title",
                                              "PatternService.UpdatePattern", PatternText)
      .Field("PATTERN", "name", kPatternName)
      .Field("TITLE", "title", "The new title")
      .Field("--etag", "etag", "Only if the pattern still has this etag");
  AddEditorCommands(app, api);
}

}  // namespace rowproof::client
