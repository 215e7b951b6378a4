#pragma once
/// The program, from its command line to its exit code.

namespace heapwright::cli {

int run(int argc, char** argv);

}  // namespace heapwright::cli
