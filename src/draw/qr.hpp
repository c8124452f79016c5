#pragma once
// A text as a QR code, for a phone's camera.
// @source{memory, ISO/IEC 18004, quiet zone of four modules}

#include <string>

#include "base/error.hpp"
#include "draw/canvas.hpp"

namespace portwright::draw {

inline constexpr int qr_quiet = 4;  ///< light modules round the code

/// The code with its quiet zone, dark ink on the ground, one filled area. A seventh part of it may be covered and it
/// still reads.
/// @param module side of a module [mm]
/// Errors: out_of_range for more than 1,000 bytes.
[[nodiscard]] base::Result<Canvas> qr_code(const std::string& text, double module = 1.0);

}  // namespace portwright::draw
