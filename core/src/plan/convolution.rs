//! The distribution of the sum of two independent whole numbers, by a fast Fourier transform in double precision.

use realfft::RealFftPlanner;

/// The first `keep` terms of the convolution of `a` and `b`.
pub(crate) fn convolve(planner: &mut RealFftPlanner<f64>, a: &[f64], b: &[f64], keep: usize) -> Vec<f64> {
    let (a, b) = (&a[..a.len().min(keep)], &b[..b.len().min(keep)]);
    let whole = a.len() + b.len() - 1;
    let size = whole.next_power_of_two().max(2);
    let forward = planner.plan_fft_forward(size);
    let spectrum = |terms: &[f64]| {
        let mut input = terms.to_vec();
        input.resize(size, 0.0);
        let mut output = forward.make_output_vec();
        forward.process(&mut input, &mut output).expect("the buffers have the lengths of their plan");
        output
    };
    let (mut product, other) = (spectrum(a), spectrum(b));
    for (term, other) in product.iter_mut().zip(other) {
        *term *= other;
    }
    let mut output = vec![0.0; size];
    planner
        .plan_fft_inverse(size)
        .process(&mut product, &mut output)
        .expect("a product of two real spectra is the spectrum of a real sequence");
    output.truncate(whole.min(keep));
    // Rounding leaves values of the order of 1e-17 on either side of zero.
    for term in &mut output {
        *term = (*term / size as f64).max(0.0);
    }
    output
}
