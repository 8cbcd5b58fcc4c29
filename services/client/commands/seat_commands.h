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

std::string TextOf(const v1::SeatChanges& changes);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_COMMANDS_SEAT_COMMANDS_H_
