#include <iostream>
#include <string>
#include <vector>

#include "cli/program.hpp"

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  return portwright::cli::run(std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc));
}
