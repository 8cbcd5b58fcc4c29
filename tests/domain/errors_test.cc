// Statuses carry their details through the process, whatever the texts hold.
#include "services/domain/errors.h"

#include <gtest/gtest.h>

#include <random>

namespace rowproof {
namespace {

TEST(Errors, SayWhatAFieldMustBeAndWhatWasGot) {
  const absl::Status status = InvalidField("sizes[1].rows", "-3", "between 1 and 4000");
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(status.message(), "sizes[1].rows must be between 1 and 4000 (got \"-3\")");
  EXPECT_EQ(
      DetailOf(status).fields,
      (std::vector<FieldViolation>{{"sizes[1].rows", "must be between 1 and 4000 (got \"-3\")"}}));
}

TEST(Errors, SayWhatAMissingFieldMustBe) {
  EXPECT_EQ(MissingField("title", "1 to 200 bytes long").message(),
            "title is missing; it must be 1 to 200 bytes long");
}

TEST(Errors, LeaveAWholeSentenceAboutAFieldAlone) {
  const absl::Status status =
      InvalidFields({{"csv", "Line 2 is empty; delete it."}, {"title", "is missing"}});
  EXPECT_EQ(status.message(), "Line 2 is empty; delete it; title is missing");
}

TEST(Errors, ListEveryField) {
  const absl::Status status = InvalidFields({{"a", "is wrong"}, {"b", "is, too"}});
  EXPECT_EQ(status.message(), "a is wrong; b is, too");
  EXPECT_EQ(DetailOf(status).fields.size(), 2u);
}

TEST(Errors, ShowSixtyBytesOfAValueAndNoControlCharacters) {
  const absl::Status status =
      InvalidField("f", std::string("\x1b[31m\n\0\x7f", 8) + std::string(1'000'000, 'x'), "text");
  const std::string message(status.message());
  EXPECT_LT(message.size(), 120u);
  EXPECT_NE(message.find("\"?[31m???xxx"), std::string::npos) << message;
  EXPECT_EQ(message.find('\x1b'), std::string::npos);
  const absl::Status exact = InvalidField("f", std::string(60, 'x'), "text");
  EXPECT_EQ(exact.message().find("..."), std::string::npos);
}

TEST(Errors, DoNotTellAbsentFromHidden) {
  EXPECT_EQ(NotFound("pattern", "patterns/a").message(), "Pattern \"patterns/a\" not found.");
  EXPECT_EQ(NotFound("pattern", "").message(), "Pattern not found.");
  EXPECT_EQ(InvitationNotFound().code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(DetailOf(InvitationNotFound()).resource_type, "invitation");
  EXPECT_EQ(InvitationNotFound().message(),
            "This invitation does not exist, was used or withdrawn, or has expired; ask for a new "
            "one.");
  EXPECT_EQ(SeatHasEnded().code(), absl::StatusCode::kPermissionDenied);
}

TEST(Errors, HaveTheCodesThatTheirKindOfNoHas) {
  const std::chrono::milliseconds soon(200);
  EXPECT_EQ(MissingField("f", "w").code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(RequestIdReused().code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(NotFound("t", "n").code(), absl::StatusCode::kNotFound);
  EXPECT_EQ(NotSignedIn().code(), absl::StatusCode::kUnauthenticated);
  EXPECT_EQ(NotAllowed("w", "m").code(), absl::StatusCode::kPermissionDenied);
  EXPECT_EQ(WrongState("T", "s", "w").code(), absl::StatusCode::kFailedPrecondition);
  EXPECT_EQ(StaleEtag("n").code(), absl::StatusCode::kAborted);
  EXPECT_EQ(NoCapacity("w", soon).code(), absl::StatusCode::kResourceExhausted);
  EXPECT_EQ(OverLimit("w", "3").code(), absl::StatusCode::kResourceExhausted);
  EXPECT_EQ(DatabaseAway().code(), absl::StatusCode::kUnavailable);
  EXPECT_EQ(TimeUp().code(), absl::StatusCode::kDeadlineExceeded);
  EXPECT_EQ(Internal("i").code(), absl::StatusCode::kInternal);
  EXPECT_EQ(DetailOf(NoCapacity("w", soon)).retry_after, soon);
  EXPECT_EQ(DetailOf(OverLimit("w", "3")).retry_after.count(), 0);
  EXPECT_EQ(DetailOf(Internal("i")).metadata.at("incident"), "i");
}

TEST(Errors, KeepAnyTextInTheirDetails) {
  std::mt19937 random(11);
  const auto text = [&] {
    std::string made;
    for (auto n = random() % 12; n > 0; --n) {
      constexpr char kCharacters[] = "0123456789::::;\n\0\xC3";
      made += kCharacters[random() % (sizeof(kCharacters) - 1)];
    }
    return made;
  };
  for (int i = 0; i < 500; ++i) {
    std::vector<UnmetCondition> conditions;
    for (auto n = random() % 4; n > 0; --n) conditions.push_back({text(), text(), text()});
    EXPECT_EQ(DetailOf(UnmetConditions("s", conditions)).conditions, conditions);
    std::vector<FieldViolation> fields;
    for (auto n = random() % 4; n > 0; --n) fields.push_back({text(), text()});
    EXPECT_EQ(DetailOf(InvalidFields(fields)).fields, fields);
    const std::string name = text();
    EXPECT_EQ(DetailOf(StaleEtag(name)).resource_name, name);
    EXPECT_EQ(DetailOf(Internal(name)).metadata.at("incident"), name);
  }
}

TEST(Errors, HaveNoDetailOfOursOnOtherStatuses) {
  EXPECT_EQ(DetailOf(absl::OkStatus()).reason, "");
  EXPECT_EQ(DetailOf(absl::InternalError("words")).reason, "");
}

TEST(UnderField, PrefixesEveryField) {
  const absl::Status status =
      UnderField(InvalidFields({{"a", "is wrong"}, {"b[0]", "is, too"}}), "chart");
  EXPECT_EQ(status.code(), absl::StatusCode::kInvalidArgument);
  EXPECT_EQ(status.message(), "chart.a is wrong; chart.b[0] is, too");
  EXPECT_EQ(DetailOf(status).fields[1].field, "chart.b[0]");
  EXPECT_EQ(DetailOf(status).reason, "INVALID_FIELD");
}

TEST(UnderField, LeavesAStatusWithoutFieldsAlone) {
  EXPECT_EQ(UnderField(StaleEtag("n"), "chart"), StaleEtag("n"));
  EXPECT_TRUE(UnderField(absl::OkStatus(), "chart").ok());
}

}  // namespace
}  // namespace rowproof
