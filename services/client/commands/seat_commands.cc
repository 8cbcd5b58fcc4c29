#include <memory>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "rowproof/v1/test_call_service.pb.h"
#include "services/client/commands/commands.h"
#include "services/client/tables/table.h"
#include "services/client/tables/views.h"
#include "services/client/verb.h"

namespace rowproof::client {
namespace {

std::string SeatText(const v1::Seat& seat, const Style& style) { return RecordOf(seat, style); }

template <typename Answer>
std::string SeatList(const Answer& answer) {
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
      "is shown only now.\n",
      seat.name(), seat.size(), seat.invitation());
}

std::string OfferedText(const v1::BatchCreateSeatsResponse& answer) {
  std::string text;
  for (const auto& seat : answer.seats()) {
    text += fmt::format("Seat: {}\nSize: {}\nInvitation: {}\n\n", seat.name(), seat.size(),
                        seat.invitation());
  }
  return text +
         "Send each tester the lines of one seat. They take it with\n"
         "  rowproof seat take FILE --name NAME\nwhere FILE is this text, or the invitation alone. "
         "It is shown only now.\n";
}

void AddOfferSeveral(CLI::App& noun, const Api& api) {
  const auto sizes = std::make_shared<std::vector<std::string>>();
  Verb<v1::BatchCreateSeatsRequest, v1::BatchCreateSeatsResponse> verb(
      noun, api, "offer-several",
      "Offer up to 100 seats, all or none; prints each with its invitation, once",
      "TestCallService.BatchCreateSeats", OfferedText);
  verb.Field("CALL", "parent", kCallName);
  verb.command()
      .add_option("SIZE", *sizes, "The size of each seat; a size may be named several times")
      ->required();
  verb.Before([sizes](v1::BatchCreateSeatsRequest& request) {
    for (const auto& size : *sizes) request.add_requests()->set_size(size);
  });
}

void AddTake(CLI::App& noun, const Api& api) {
  AddInvited(Verb<v1::TakeSeatRequest, v1::TakeSeatResponse>(
      noun, api, "take",
      "Take the seat that you were invited to; with your token it goes to your account, else an "
      "account is made and its token printed, once",
      "TestCallService.TakeSeat", TakenText));
}

}  // namespace

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
      std::make_shared<v1::ListSeatsRequest>(), SeatList<v1::ListSeatsResponse>);
}

void AddSeatCommands(CLI::App& app, const Api& api) {
  auto* noun = AddNoun(app, "seat", "Seats of a test call");
  Verb<v1::CreateSeatRequest, v1::Seat>(*noun, api, "offer",
                                        "Offer a seat; prints its invitation, once",
                                        "TestCallService.CreateSeat", SeatOfferText)
      .Field("CALL", "parent", kCallName)
      .Field("SIZE", "size", "One of the call's wanted sizes");
  AddOfferSeveral(*noun, api);
  AddTake(*noun, api);
  AddList<v1::ListMySeatsRequest, v1::ListMySeatsResponse>(
      *noun, api, "mine", "Your own seats in all test calls, newest first",
      "TestCallService.ListMySeats", nullptr, std::make_shared<v1::ListMySeatsRequest>(),
      SeatList<v1::ListMySeatsResponse>);
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
                                        "Stop testing, without a reason; your reports are kept",
                                        "TestCallService.GiveUpSeat", SeatText)
      .Field("SEAT", "name", kSeatName);
  Verb<v1::CancelSeatRequest, v1::Seat>(*noun, api, "cancel", "Take a seat back",
                                        "TestCallService.CancelSeat", SeatText)
      .Field("SEAT", "name", kSeatName);
}

}  // namespace rowproof::client
