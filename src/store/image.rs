//! A file in memory that knows which of its blocks have changed since they were last kept.

use std::collections::BTreeSet;

/// Bytes in a block: what is kept or not kept as one.
pub(super) const BLOCK: usize = 8192;

/// The file.
#[derive(Debug, Default)]
pub(super) struct Image {
    blocks: Vec<Box<[u8]>>,
    length: u64,
    changed: BTreeSet<u32>,
}

impl Image {
    /// A file as it was kept: whole blocks, and its length in bytes.
    ///
    /// # Errors
    /// A sentence, where blocks are missing or have another size.
    pub(super) fn kept(blocks: Vec<Box<[u8]>>, length: u64) -> Result<Self, String> {
        if blocks.len() as u64 != length.div_ceil(BLOCK as u64) {
            return Err(format!("{} blocks were kept of a file of {length} bytes", blocks.len()));
        }
        if blocks.iter().any(|block| block.len() != BLOCK) {
            return Err("a block has another size than it was kept with".to_owned());
        }
        Ok(Self {
            blocks,
            length,
            changed: BTreeSet::new(),
        })
    }

    /// Bytes in the file.
    pub(super) fn length(&self) -> u64 {
        self.length
    }

    /// Copies bytes out, and tells how many there were before the file's end.
    pub(super) fn read(&self, into: &mut [u8], at: u64) -> usize {
        let Ok(there) = usize::try_from(self.length.saturating_sub(at)) else {
            return 0;
        };
        let count = into.len().min(there);
        let mut done = 0;
        while done < count {
            let (block, offset) = place(at + done as u64);
            let step = (BLOCK - offset).min(count - done);
            into[done..done + step].copy_from_slice(&self.blocks[block][offset..offset + step]);
            done += step;
        }
        count
    }

    /// Writes bytes, and makes the file longer where they end behind its end.
    pub(super) fn write(&mut self, bytes: &[u8], at: u64) {
        let end = at + bytes.len() as u64;
        if end > self.length {
            self.reach(end);
        }
        let mut done = 0;
        while done < bytes.len() {
            let (block, offset) = place(at + done as u64);
            let step = (BLOCK - offset).min(bytes.len() - done);
            self.blocks[block][offset..offset + step].copy_from_slice(&bytes[done..done + step]);
            self.mark(block);
            done += step;
        }
    }

    /// Cuts the file to a length. A longer one is not made.
    pub(super) fn cut(&mut self, length: u64) {
        if length >= self.length {
            return;
        }
        let (whole, rest) = place(length);
        self.blocks.truncate(whole + usize::from(rest > 0));
        if rest > 0 {
            // What lies behind the end reads as zeros if the file grows again.
            self.blocks[whole][rest..].fill(0);
            self.mark(whole);
        }
        let count = self.blocks.len();
        self.changed.retain(|block| (*block as usize) < count);
        self.length = length;
    }

    /// How many blocks there are.
    pub(super) fn count(&self) -> usize {
        self.blocks.len()
    }

    /// A block's bytes.
    pub(super) fn block(&self, number: u32) -> &[u8] {
        self.blocks.get(number as usize).map_or(&[], |block| block)
    }

    /// Takes the numbers of the blocks that have changed.
    pub(super) fn take_changed(&mut self) -> BTreeSet<u32> {
        std::mem::take(&mut self.changed)
    }

    /// Gives numbers back that could not be kept; blocks that are gone meanwhile do not count.
    pub(super) fn give_back(&mut self, numbers: BTreeSet<u32>) {
        let count = self.blocks.len();
        self.changed
            .extend(numbers.into_iter().filter(|number| (*number as usize) < count));
    }

    fn reach(&mut self, length: u64) {
        let had = self.blocks.len();
        let need = usize::try_from(length.div_ceil(BLOCK as u64)).unwrap_or(usize::MAX);
        self.blocks.resize_with(need, || vec![0; BLOCK].into_boxed_slice());
        (had..need).for_each(|block| self.mark(block));
        self.length = length;
    }

    fn mark(&mut self, block: usize) {
        // A file in memory has fewer blocks than this number has values.
        self.changed.insert(u32::try_from(block).unwrap_or(u32::MAX));
    }
}

/// The block that a byte lies in, and where in it.
fn place(at: u64) -> (usize, usize) {
    let block = usize::try_from(at / BLOCK as u64).unwrap_or(usize::MAX);
    (block, (at % BLOCK as u64) as usize)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// What a step does to a plain vector, it does to the image; what is kept after each step,
    /// block by block as told, is the file again.
    #[derive(Debug, Clone)]
    enum Step {
        Write { at: u16, bytes: Vec<u8> },
        Cut { to: u16 },
    }

    fn step() -> impl Strategy<Value = Step> {
        prop_oneof![
            (any::<u16>(), prop::collection::vec(any::<u8>(), 1..9000))
                .prop_map(|(at, bytes)| Step::Write { at, bytes }),
            any::<u16>().prop_map(|to| Step::Cut { to }),
        ]
    }

    proptest! {
        #[test]
        fn it_is_a_file(steps in prop::collection::vec(step(), 1..24)) {
            let (mut image, mut plain, mut kept) = (Image::default(), Vec::<u8>::new(), Vec::<Box<[u8]>>::new());
            for step in steps {
                match step {
                    Step::Write { at, bytes } => {
                        let at = usize::from(at);
                        plain.resize(plain.len().max(at + bytes.len()), 0);
                        plain[at..at + bytes.len()].copy_from_slice(&bytes);
                        image.write(&bytes, at as u64);
                    }
                    Step::Cut { to } => {
                        plain.truncate(usize::from(to));
                        image.cut(u64::from(to));
                    }
                }
                kept.resize(image.count(), vec![0; BLOCK].into_boxed_slice());
                for number in image.take_changed() {
                    kept[number as usize] = image.block(number).into();
                }
                let again = Image::kept(kept.clone(), image.length()).unwrap();
                for image in [&image, &again] {
                    prop_assert_eq!(image.length(), plain.len() as u64);
                    let mut all = vec![0; plain.len() + 10];
                    prop_assert_eq!(image.read(&mut all, 0), plain.len());
                    prop_assert_eq!(&all[..plain.len()], &plain[..]);
                }
            }
        }
    }

    #[test]
    fn what_could_not_be_kept_is_still_to_be_kept() {
        let mut image = Image::default();
        image.write(&vec![1; 3 * BLOCK], 0);
        let taken = image.take_changed();
        image.cut(BLOCK as u64 + 5);
        image.give_back(taken);
        assert_eq!(image.take_changed(), BTreeSet::from([0, 1]));
        assert_eq!(image.take_changed(), BTreeSet::new());
    }

    #[test]
    fn what_was_kept_badly_is_refused() {
        let block = || vec![0; BLOCK].into_boxed_slice();
        assert!(Image::kept(vec![block()], BLOCK as u64).is_ok());
        assert!(Image::kept(vec![block()], BLOCK as u64 + 1).is_err());
        assert!(Image::kept(vec![vec![0; 12].into_boxed_slice()], 12).is_err());
    }
}
