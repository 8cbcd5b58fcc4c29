// seat, and the list of a call's seats.
#ifndef ROWPROOF_SERVICES_CLIENT_COMMANDS_SEAT_COMMANDS_H_
#define ROWPROOF_SERVICES_CLIENT_COMMANDS_SEAT_COMMANDS_H_

#include <CLI/CLI.hpp>
#include <string>

#include "rowproof/v1/test_call.pb.h"
#include "services/client/commands/server_commands.h"

namespace rowproof::client {

void AddSeatCommands(CLI::App& app, const Api& api);
// "testcall seats".
void AddSeatList(CLI::App& testcall, const Api& api);

// The invitation in a text: what "seat offer" prints (as text or JSON), a mail that quotes it, or
// the invitation alone. Throws Failure (refused) if there is none.
std::string InvitationIn(const std::string& text);

std::string TextOf(const v1::SeatChanges& changes);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_SEAT_COMMANDS_H_
