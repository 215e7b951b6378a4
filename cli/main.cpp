#include "run.hpp"

int main(int argc, char** argv) { return heapwright::cli::run(argc, argv); }
