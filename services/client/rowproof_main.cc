#include "services/client/program.h"

int main(int argc, char** argv) { return rowproof::client::RunProgram(argc, argv); }
