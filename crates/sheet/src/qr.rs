//! The fingerprint as a QR code, drawn as one path.

use core::fmt::Write as _;

use qrcode::{Color, EcLevel, QrCode};

use crate::SheetError;

/// Light modules around the code, as ISO/IEC 18004 asks.
const QUIET: usize = 4;

/// The code as SVG; a quarter of it may be lost to a fold or a bad copy.
pub(crate) fn svg(text: &str) -> Result<String, SheetError> {
    let code =
        QrCode::with_error_correction_level(text, EcLevel::Q).map_err(|_| SheetError::QrCode)?;
    let width = code.width();
    let side = width + 2 * QUIET;
    let mut path = String::new();
    for (index, color) in code.to_colors().into_iter().enumerate() {
        if color == Color::Dark {
            let (x, y) = (index % width + QUIET, index / width + QUIET);
            // Writing to a string cannot fail.
            let _ = write!(path, "M{x} {y}h1v1h-1z");
        }
    }
    Ok(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\">\
         <path d=\"{path}\" fill=\"#000\" shape-rendering=\"crispEdges\"/></svg>"
    ))
}
