#pragma once
// Words that nobody guesses and that never meet: the system's own randomness. The draws of a simulation are not from
// here; they are numbered, so that they can be repeated (numerics).

#include <string>

namespace portwright::base {

/// `bytes` random bytes of the system, two hexadecimal digits each. 16 bytes never meet by chance; 32 are a secret.
/// Throws std::runtime_error when the system gives none.
[[nodiscard]] std::string random_word(int bytes);

}  // namespace portwright::base
