#include "services/client/commands/seat_commands.h"

#include <cctype>
#include <memory>
#include <string_view>

#include "fmt/format.h"
#include "rowproof/v1/test_call_service.pb.h"
#include "services/client/commands/verb.h"
#include "services/client/failure.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"

namespace rowproof::client {
namespace {

// Of an invitation, beside letters and digits.
constexpr std::string_view kTokenSigns = "_-.~+/=";

std::string SeatText(const v1::Seat& seat, const Style& style) { return RecordOf(seat, style); }

std::string SeatList(const v1::ListSeatsResponse& answer) {
  return ListOf(answer.seats(), {{"Name", "name"},
                                 {"Size", "size"},
                                 {"State", "state"},
                                 {"Reports", "report_count"},
                                 {"Row", "last_row"},
                                 {"Tester", "display_name"}});
}

std::string TakenText(const v1::TakeSeatResponse& answer) {
  if (answer.secret().empty()) {
    return fmt::format("The seat is yours: {}\nIt belongs to your account: {}\n",
                       answer.seat().name(), answer.account());
  }
  return fmt::format(
      "The seat is yours: {}\nYour account: {}\nYour token, shown only now (keep it in a file that "
      "nobody else can read):\n{}\n",
      answer.seat().name(), answer.account(), answer.secret());
}

std::string SeatOfferText(const v1::Seat& seat) {
  return fmt::format(
      "Seat: {}\nSize: {}\nInvitation: {}\n\nSend this text to the tester. They take the seat "
      "with\n"
      "  rowproof seat take FILE --name NAME\nwhere FILE is this text, or the invitation alone. It "
      "is "
      "shown only now.\n",
      seat.name(), seat.size(), seat.invitation());
}

// Whoever reads the list of processes must not read an invitation there: it comes from a file.
void AddTake(CLI::App& noun, const Api& api) {
  Verb<v1::TakeSeatRequest, v1::TakeSeatResponse>(
      noun, api, "take",
      "Take the seat that you were invited to; with your token it goes to your account, else an "
      "account is made and its token printed, once",
      "TestCallService.TakeSeat", TakenText)
      .FileField("INVITATION", "invitation",
                 "File with what \"seat offer\" printed, a mail that quotes it, or the invitation "
                 "alone; - is standard input")
      .Field("--name", "display_name", "What you want to be called; needed for a new account only")
      .Field("--mail", "mail_address", "Where mail reaches you; for a new account only")
      .Before([](v1::TakeSeatRequest& request) {
        request.set_invitation(InvitationIn(request.invitation()));
      });
}

}  // namespace

std::string InvitationIn(const std::string& text) {
  const auto token = [&text](size_t from) {
    size_t end = from;
    while (end < text.size() && (std::isalnum(static_cast<unsigned char>(text[end])) != 0 ||
                                 kTokenSigns.find(text[end]) != std::string_view::npos)) {
      ++end;
    }
    return text.substr(from, end - from);
  };
  constexpr char kBlanks[] = " \t\r\n";
  const size_t first = text.find_first_not_of(kBlanks);
  if (first != std::string::npos && text.find_last_not_of(kBlanks) < first + token(first).size()) {
    return token(first);
  }
  // "Invitation: ...", in JSON within quotes; a mail program's quoting marks may stand before it.
  for (size_t at = text.find("nvitation"); at != std::string::npos;
       at = text.find("nvitation", at)) {
    at = text.find_first_not_of(" \t\"", at + std::string_view("nvitation").size());
    if (at == std::string::npos || text[at] != ':') continue;
    at = text.find_first_not_of(" \t\"", at + 1);
    if (at != std::string::npos && !token(at).empty()) return token(at);
  }
  throw Failure(ExitCode::kRefused,
                "INVITATION holds none: give the text that \"seat offer\" printed, with its "
                "\"Invitation:\" line");
}

std::string TextOf(const v1::SeatChanges& changes) {
  std::string text = fmt::format("Seat: {}\nFrom: {}\nTo: {}\nRow worked: {}\n", changes.seat(),
                                 changes.from_version(), changes.to_version(), changes.last_row());
  text += changes.next_row() > 0 ? fmt::format("Go on with row {}.\n", changes.next_row())
                                 : std::string("No row is left to work.\n");
  if (changes.behind().empty() && changes.ahead().empty()) return text + "No row has changed.\n";
  Table table;
  table.Column("Where").Column("Was row", Table::Side::kRight);
  table.Column("Is row", Table::Side::kRight).Column("What");
  const auto add = [&](const char* where, const auto& rows) {
    for (const auto& row : rows) {
      table.Row({where, row.old_row() == 0 ? "-" : std::to_string(row.old_row()),
                 row.new_row() == 0 ? "-" : std::to_string(row.new_row()), Word(row.change())});
    }
  };
  add("behind you", changes.behind());
  add("ahead", changes.ahead());
  return text + table.Text();
}

void AddSeatList(CLI::App& testcall, const Api& api) {
  AddList<v1::ListSeatsRequest, v1::ListSeatsResponse>(
      testcall, api, "seats", "The seats of a call", "TestCallService.ListSeats", kCallName,
      std::make_shared<v1::ListSeatsRequest>(), SeatList);
}

void AddSeatCommands(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "seat", "Seats of a test call");
  Verb<v1::CreateSeatRequest, v1::Seat>(*noun, api, "offer",
                                        "Offer a seat; prints its invitation, once",
                                        "TestCallService.CreateSeat", SeatOfferText)
      .Field("CALL", "parent", kCallName)
      .Field("SIZE", "size", "One of the call's wanted sizes");
  AddTake(*noun, api);
  Verb<v1::GetSeatRequest, v1::Seat>(*noun, api, "show", "One seat", "TestCallService.GetSeat",
                                     SeatText)
      .Field("SEAT", "name", kSeatName);
  Verb<v1::GetSeatFormRequest, v1::GetSeatFormResponse>(
      *noun, api, "form", "The seat's form to fill in with any editor",
      "TestCallService.GetSeatForm",
      [](const v1::GetSeatFormResponse& answer) { return answer.form_text(); })
      .Field("SEAT", "name", kSeatName);
  Verb<v1::GetSeatChangesRequest, v1::SeatChanges>(
      *noun, api, "changes", "What the newest version changed, behind and ahead of the tester",
      "TestCallService.GetSeatChanges",
      [](const v1::SeatChanges& changes) { return TextOf(changes); })
      .Field("SEAT", "name", kSeatName);
  Verb<v1::GiveUpSeatRequest, v1::Seat>(*noun, api, "give-up",
                                        "Stop testing, without a reason; reports stay",
                                        "TestCallService.GiveUpSeat", SeatText)
      .Field("SEAT", "name", kSeatName);
  Verb<v1::CancelSeatRequest, v1::Seat>(*noun, api, "cancel", "Take a seat back",
                                        "TestCallService.CancelSeat", SeatText)
      .Field("SEAT", "name", kSeatName);
}

}  // namespace rowproof::client
