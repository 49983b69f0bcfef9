// SPDX-License-Identifier: MIT
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "cli/exit_code.h"
#include "cli/run.h"

int main(int count, char** values) {
    try {
        return tickleaf::cli::run(std::vector<std::string>(values + 1, values + count), std::cout,
                                  std::cerr);
    } catch (const std::exception& bug) {
        std::cerr << "tickleaf: this is a bug of ours, not yours: " << bug.what() << '\n'
                  << "    hint: please send us the prescription and this line\n";
        return tickleaf::cli::kOurBug;
    }
}
