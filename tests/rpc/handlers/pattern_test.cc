// PatternService: patterns, versions and editors.
#include <gmock/gmock.h>

#include "rowproof/v1/pattern_service.pb.h"
#include "tests/rpc/handlers/method_rows.h"

namespace rowproof::rpc {
namespace {

using ::testing::ElementsAre;

constexpr char kShawl[] = R"(name: "patterns/shawl")";
constexpr char kFirstVersion[] = R"(name: "patterns/shawl/versions/1")";
constexpr char kEditor[] = R"(name: "patterns/shawl/editors/e1")";
// Four plain rows of six stitches.
constexpr char kContent[] = R"(
    content {
      title: "Invented tile"
      design {
        technique: TECHNIQUE_SPIKE facing: FACING_TWO_FACE ends: ENDS_CUT
        chart {
          row_count: 4 stitch_count: 6 cells: "\000\077\000\077" convention: CONVENTION_PICTURE
        }
      }
      materials {
        yarns { role: YARN_ROLE_A yarn { weight_class: 4 ball_band { length_m: 85 mass_g: 50 } } }
        yarns { role: YARN_ROLE_B yarn { weight_class: 4 ball_band { length_m: 85 mass_g: 50 } } }
        gauge { stitches_per_decimetre: 14 rows_per_decimetre: 16 }
      }
    })";

std::vector<MethodRow> RowsOfPatterns() {
  const std::string mat = R"(name: "patterns/mat")";
  return {
      {.method = "CreatePattern",
       .request = R"(title: "Invented runner")",
       .other = R"(title: "Another")"},
      {.method = "GetPattern", .request = kShawl, .names = {"name"}},
      {.method = "ListPatterns",
       .four_more = FourMore("pattern", "pattern_id = 'mat'", "'pattern_id', 'm' || n") +
                    FourMore("membership", "pattern_id = 'mat'", "'pattern_id', 'm' || n"),
       .elsewhere = "show_archived: true"},
      {.method = "UpdatePattern",
       .request = R"(pattern { name: "patterns/shawl" title: "Reed shawl" })",
       .names = {"pattern.name"},
       .etag = "pattern.etag",
       .read_by = "GetPattern",
       .read_request = kShawl,
       .resource = "pattern",
       .changeable = {"title"}},
      {.method = "ArchivePattern",
       .request = mat,
       .names = {"name"},
       .etag = "etag",
       .read_by = "GetPattern",
       .read_request = mat},
      {.method = "UnarchivePattern",
       .request = mat,
       .before = "update pattern set archived_at = '2026-01-01' where pattern_id = 'mat'",
       .names = {"name"},
       .etag = "etag",
       .read_by = "GetPattern",
       .read_request = mat},
  };
}

std::vector<MethodRow> RowsOfVersions() {
  const std::string shawl = R"(parent: "patterns/shawl")";
  return {
      {.method = "CreateVersion",
       .request = shawl + kContent,
       .names = {"parent"},
       .other = R"(note: "Another")"},
      {.method = "GetVersion", .request = kFirstVersion, .names = {"name"}},
      {.method = "ListVersions",
       .request = shawl,
       .names = {"parent"},
       .four_more = FourMore("version", "pattern_id = 'shawl'", "'number', n"),
       .elsewhere = R"(parent: "patterns/mat")"},
      {.method = "WriteVersionRows", .request = kFirstVersion, .names = {"name"}},
      {.method = "CompareVersionRows",  // the designer wrote no text
       .request = kFirstVersion,
       .code = grpc::StatusCode::FAILED_PRECONDITION,
       .names = {"name"}},
      {.method = "CompareVersions",
       .request = R"(from: "patterns/shawl/versions/1" to: "patterns/shawl/versions/7")",
       .before = "insert into version select (jsonb_populate_record(v, '{\"number\": 7}')).* "
                 "from version v where pattern_id = 'shawl' and number = 1",
       .names = {"from", "to"}},
      {.method = "EstimateVersion", .request = kFirstVersion, .names = {"name"}},
  };
}

std::vector<MethodRow> RowsOfEditors() {
  const std::string shawl = R"(parent: "patterns/shawl")";
  const auto invite = [](const std::string& id) {
    return "insert into editor select (jsonb_populate_record(e, jsonb_build_object("
           "'editor_id', '" +
           id + "', 'expires_at', '2100-01-01', 'invitation_sha256', sha256('" + id +
           "')))).* from editor e where editor_id = 'e1'";
  };
  return {
      {.method = "CreateEditor",
       .request = shawl + R"( label: "for Edi")",
       .names = {"parent"},
       .other = R"(label: "for another")",
       .gives_secret = true},
      {.method = "AcceptEditorInvitation",
       .request = R"(invitation: "invited")",
       .caller = kNewcomer,
       .before = invite("invited"),
       .other = R"(invitation: "another")",
       .is_open = true},
      {.method = "GetEditor", .request = kEditor, .names = {"name"}},
      {.method = "ListEditors",
       .request = shawl,
       .names = {"parent"},
       .four_more = FourMore("editor", "editor_id = 'e1'",
                             "'editor_id', 'm' || n, 'invitation_sha256', sha256(n::text::bytea)"),
       .elsewhere = R"(parent: "patterns/mat")"},
      {.method = "DeleteEditor",
       .request = kEditor,
       .names = {"name"},
       .other = R"(name: "patterns/shawl/editors/another")"},
  };
}

ServiceRows PatternRows() {
  ServiceRows all{"PatternService", RowsOfPatterns()};
  for (const auto& rows : {RowsOfVersions(), RowsOfEditors()}) {
    all.rows.insert(all.rows.end(), rows.begin(), rows.end());
  }
  return all;
}

INSTANTIATE_TEST_SUITE_P(Pattern, EveryService, ::testing::Values(PatternRows()));

class PatternHandlers : public HandlerTest {
 protected:
  v1::Pattern Get() {
    v1::GetPatternRequest get;
    Merge(kShawl, get);
    return Call<v1::Pattern>("PatternService.GetPattern", get);
  }
};

TEST_F(PatternHandlers, ChangesTheTitleAndNothingElse) {
  for (const char* mask :
       {"", R"(update_mask { paths: "title" })", R"(update_mask { paths: "*" })"}) {
    v1::Pattern expected = Get();
    v1::UpdatePatternRequest update;
    Merge(R"(pattern { name: "patterns/shawl" designer: "accounts/eve" version_count: 9 })",
          update);
    Merge(mask, update);
    update.mutable_pattern()->set_title("Reed shawl " + std::string(mask).substr(0, 30));
    const auto changed = Call<v1::Pattern>("PatternService.UpdatePattern", update);
    EXPECT_NE(changed.etag(), expected.etag());
    expected.set_title(update.pattern().title());
    expected.set_etag(changed.etag());
    EXPECT_EQ(changed.DebugString(), expected.DebugString()) << mask;
    EXPECT_EQ(Get().DebugString(), expected.DebugString()) << mask;
  }
}

TEST_F(PatternHandlers, ClearsNoTitle) {
  v1::UpdatePatternRequest update;
  Merge(R"(pattern { name: "patterns/shawl" } update_mask { paths: "*" })", update);
  EXPECT_THAT(FieldsOf(Refusal("PatternService.UpdatePattern", update)),
              ElementsAre("pattern.title"));
}

TEST_F(PatternHandlers, WithoutARequestIdASecondRequestIsAnother) {
  v1::CreatePatternRequest create;
  create.set_title("Invented rug");
  const auto first = Call<v1::Pattern>("PatternService.CreatePattern", create);
  const auto second = Call<v1::Pattern>("PatternService.CreatePattern", create);
  EXPECT_NE(first.name(), second.name());
  EXPECT_EQ(first.title(), second.title());
}

TEST_F(PatternHandlers, ListsArchivedPatternsOnlyIfTheyAreAskedFor) {
  v1::ArchivePatternRequest archive;
  Merge(kShawl, archive);
  EXPECT_TRUE(Call<v1::Pattern>("PatternService.ArchivePattern", archive).has_archive_time());
  v1::ListPatternsRequest list;
  EXPECT_EQ(Call<v1::ListPatternsResponse>("PatternService.ListPatterns", list).patterns_size(), 1);
  list.set_show_archived(true);
  EXPECT_EQ(Call<v1::ListPatternsResponse>("PatternService.ListPatterns", list).patterns_size(), 2);
  EXPECT_EQ(Call<v1::ListPatternsResponse>("PatternService.ListPatterns", list, kStranger)
                .patterns_size(),
            0);
}

TEST_F(PatternHandlers, ATesterMayKnowThePatternButNotWriteToIt) {
  v1::GetPatternRequest get;
  Merge(kShawl, get);
  EXPECT_TRUE(Refusal("PatternService.GetPattern", get, kTester).ok());
  v1::CreateEditorRequest invite;
  invite.set_parent("patterns/shawl");
  v1::CreateVersionRequest submit;
  Merge(std::string(R"(parent: "patterns/shawl")") + kContent, submit);
  v1::ListVersionsRequest versions;
  versions.set_parent("patterns/shawl");
  const auto refused = [&](const std::string& method, const google::protobuf::Message& request) {
    return Refusal("PatternService." + method, request, kTester).error_code();
  };
  EXPECT_EQ(refused("CreateEditor", invite), grpc::StatusCode::PERMISSION_DENIED);
  EXPECT_EQ(refused("CreateVersion", submit), grpc::StatusCode::PERMISSION_DENIED);
  EXPECT_EQ(refused("ListVersions", versions), grpc::StatusCode::PERMISSION_DENIED);
}

TEST_F(PatternHandlers, AVersionIsMadeFromOneOfItsOwnPattern) {
  v1::CreateVersionRequest submit;
  Merge(std::string(R"(parent: "patterns/shawl")") + kContent, submit);
  for (const char* wrong : {"patterns/shawl", "patterns/shawl/versions/0", "1",
                            "patterns/mat/versions/1", "patterns/shawl/versions/2"}) {
    submit.set_parent_version(wrong);
    const grpc::Status refusal = Refusal("PatternService.CreateVersion", submit);
    EXPECT_EQ(refusal.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << wrong;
    EXPECT_THAT(FieldsOf(refusal), ElementsAre("parent_version")) << wrong;
  }
  v1::CompareVersionsRequest compare;
  compare.set_from("patterns/shawl/versions/1");
  compare.set_to("patterns/mat/versions/1");
  EXPECT_THAT(FieldsOf(Refusal("PatternService.CompareVersions", compare)), ElementsAre("to"));
}

TEST_F(PatternHandlers, CheckingAVersionStoresNothing) {
  v1::CreateVersionRequest submit;
  Merge(std::string(R"(parent: "patterns/shawl" validate_only: true)") + kContent, submit);
  const std::string before = AllRecords();
  const auto checked = Call<v1::Version>("PatternService.CreateVersion", submit);
  EXPECT_EQ(checked.state(), v1::VERSION_STATE_WORKABLE);
  EXPECT_EQ(AllRecords(), before);
}

}  // namespace
}  // namespace rowproof::rpc
