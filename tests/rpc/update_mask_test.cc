// update_mask: which fields of a resource an update changes, and which paths are refused.
#include "services/rpc/update_mask.h"

#include <gmock/gmock.h>

#include "rowproof/v1/test_call.pb.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::FieldMask;
using ::testing::ElementsAre;

constexpr std::string_view kSettings[] = {"settings"};
constexpr std::string_view kTwo[] = {"state", "settings"};

FieldMask MaskOf(std::initializer_list<const char*> paths) {
  FieldMask mask;
  for (const char* path : paths) mask.add_paths(path);
  return mask;
}

v1::TestCall Sent() {
  v1::TestCall sent;
  sent.set_name("patterns/p/testCalls/c");
  sent.set_state(v1::CALL_STATE_OPEN);
  sent.mutable_settings()->set_title("new");
  sent.mutable_settings()->set_confidential(false);
  sent.mutable_settings()->add_sizes()->set_size("wide");
  return sent;
}

v1::TestCall Present() {
  v1::TestCall present;
  present.mutable_settings()->set_title("old");
  present.mutable_settings()->set_reward("yarn");
  present.mutable_settings()->add_sizes()->set_size("small");
  present.mutable_settings()->add_sizes()->set_size("large");
  return present;
}

v1::CallSettings Laid(const FieldMask& mask) {
  const auto read = ReadUpdateMask(mask, Sent(), kSettings);
  EXPECT_TRUE(read.ok()) << read.status();
  v1::TestCall present = Present();
  if (read.ok()) LayOver(*read, Sent(), &present);
  return present.settings();
}

TEST(UpdateMask, WithoutPathsNamesWhatIsSetAmongWhatCanBeChanged) {
  const auto read = ReadUpdateMask({}, Sent(), kSettings);
  ASSERT_TRUE(read.ok()) << read.status();
  EXPECT_THAT(read->paths(),
              ElementsAre("settings.title", "settings.sizes", "settings.confidential"));
  EXPECT_TRUE(Changes(*read, "settings"));
  EXPECT_TRUE(Changes(*read, "settings.title"));
  EXPECT_FALSE(Changes(*read, "settings.reward"));
  EXPECT_FALSE(Changes(*read, "state"));
}

TEST(UpdateMask, ReplacesListsAndLeavesWhatItDoesNotName) {
  const v1::CallSettings laid = Laid({});
  EXPECT_EQ(laid.title(), "new");
  EXPECT_EQ(laid.reward(), "yarn");
  ASSERT_EQ(laid.sizes_size(), 1);
  EXPECT_EQ(laid.sizes(0).size(), "wide");
  EXPECT_TRUE(laid.has_confidential());
  EXPECT_FALSE(laid.confidential());
}

TEST(UpdateMask, EmptiesWhatItNamesAndIsNotSent) {
  const v1::CallSettings laid = Laid(MaskOf({"settings.reward"}));
  EXPECT_EQ(laid.title(), "old");
  EXPECT_EQ(laid.reward(), "");
  EXPECT_EQ(laid.sizes_size(), 2);
}

TEST(UpdateMask, OfAStarOrAWholeMessageReplacesIt) {
  EXPECT_EQ(Laid(MaskOf({"*"})).SerializeAsString(), Sent().settings().SerializeAsString());
  EXPECT_EQ(Laid(MaskOf({"settings"})).SerializeAsString(), Sent().settings().SerializeAsString());
  const auto both = ReadUpdateMask(MaskOf({"*"}), Sent(), kTwo);
  ASSERT_TRUE(both.ok());
  EXPECT_THAT(both->paths(), ElementsAre("state", "settings"));
}

TEST(UpdateMask, RefusesEveryOtherPathByItsOwnName) {
  FieldMask many;
  for (int i = 0; i <= kMostMaskPaths; ++i) many.add_paths("settings.title");
  for (const FieldMask& mask :
       {MaskOf({"state"}), MaskOf({"settings.nothing"}), MaskOf({"settings.sizes.seats"}),
        MaskOf({"settings."}), MaskOf({""}), MaskOf({"settingsx"}), MaskOf({"*", "settings"}),
        MaskOf({"Settings"}), MaskOf({"settings.title.x"}), many}) {
    const auto read = ReadUpdateMask(mask, Sent(), kSettings);
    EXPECT_EQ(read.status().code(), absl::StatusCode::kInvalidArgument) << mask.DebugString();
    const ErrorDetail detail = DetailOf(read.status());
    ASSERT_EQ(detail.fields.size(), 1u);
    EXPECT_EQ(detail.fields[0].field, "update_mask");
  }
}

TEST(UpdateMask, RefusesARequestThatChangesNothing) {
  v1::TestCall sent;
  sent.set_name("patterns/p/testCalls/c");
  const auto read = ReadUpdateMask({}, sent, kSettings);
  EXPECT_EQ(DetailOf(read.status()).fields.at(0).field, "update_mask");
}

}  // namespace
}  // namespace rowproof::rpc
